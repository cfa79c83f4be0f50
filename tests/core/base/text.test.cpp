#include "inkturn/base/text.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/utf8.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;

std::string utf8(char32_t code) {
    std::string bytes;
    append_utf8(bytes, code);
    return bytes;
}

} // namespace

TEST_CASE("control characters are those of ASCII and of C1") {
    for (const char32_t code : {0x01u, 0x09u, 0x0Au, 0x1Bu, 0x1Fu, 0x7Fu, 0x80u, 0x9Bu, 0x9Fu})
        CHECK(has_control_character("a" + utf8(code)));
    for (const char32_t code : {0x20u, 0x7Eu, 0xA0u, 0xDBu, 0x49Bu, 0x10FFFFu})
        CHECK_FALSE(has_control_character("a" + utf8(code)));
    CHECK(has_control_character(std::string("a\0b", 3)));
}

TEST_CASE("printable text is counted in characters, not bytes") {
    const std::string accents = "\xC3\xA9\xC3\xA9\xC3\xA9";
    CHECK_NOTHROW(check_printable(accents, 3, "title"));
    CHECK_THROWS_WITH(check_printable(accents, 2, "title"), "title: at most 2 characters");
    CHECK_THROWS_WITH(check_printable("\xFF", 9, "title"), "title: the text is not valid UTF-8");
    CHECK_THROWS_WITH(check_printable("a\tb", 9, "title"),
                      "title: no line breaks or control characters, please");
}

TEST_CASE("letters put in, left out and changed are counted, as few as will do") {
    CHECK(letters_changed("", "") == 0);
    CHECK(letters_changed("", "vectors") == 7);
    CHECK(letters_changed("vectors", "vectors") == 0);
    CHECK(letters_changed("vektors", "vectors") == 1);
    CHECK(letters_changed("vector", "vectors") == 1);
    CHECK(letters_changed("vvectors", "vectors") == 1);
    CHECK(letters_changed("kitten", "sitting") == 3);
    CHECK(letters_changed("sitting", "kitten") == 3);
}

TEST_CASE("a name was probably meant where one slip makes it, or two of a long one") {
    const std::vector<std::string> names{"pure-a", "mechanics-b", "K07"};
    CHECK(nearest_name("pore-a", names) == "pure-a");
    CHECK(nearest_name("pure", {"pure-a"}) == std::nullopt);
    CHECK(nearest_name("upre-a", names) == "pure-a");
    CHECK(nearest_name("PURE-A", names) == "pure-a");
    CHECK(nearest_name("mechnics-", names) == "mechanics-b");
    CHECK(nearest_name("K7", names) == "K07");
    CHECK_FALSE(nearest_name("statistics", names));
    CHECK_FALSE(nearest_name("", names));
    CHECK_FALSE(nearest_name("x", {}));
}

TEST_CASE("another number is no slip, and of several as near none was meant") {
    CHECK_FALSE(nearest_name("p9", {"p1"}));
    CHECK_FALSE(nearest_name("pure-12", {"pure-11"}));
    CHECK_FALSE(nearest_name("pure-c", {"pure-a", "pure-b"}));
    CHECK(nearest_name("pure-b", {"pure-a", "pure-b"}) == "pure-b");
}

TEST_CASE("one slip of a finger changes, adds or leaves out a letter, or two change places") {
    CHECK(is_one_slip("pure-1", "pure-2"));
    CHECK(is_one_slip("pure-1", "pure-11"));
    CHECK(is_one_slip("pure-1", "pue-1"));
    CHECK(is_one_slip("pure-1", "prue-1"));
    CHECK_FALSE(is_one_slip("pure-1", "pure-1"));
    CHECK_FALSE(is_one_slip("pure-11", "pure-22"));
    CHECK_FALSE(is_one_slip("tuesday", "thursday"));
}

TEST_CASE("what is not on file is told with the name that was meant, or with what to do") {
    const Error near =
        not_on_file("no class 12a on file", "12a", {"12A", "13B"}, Error::Remedy::list_classes);
    CHECK(near.kind() == Error::Kind::not_found);
    CHECK(near.remedy() == Error::Remedy::use_name_meant);
    CHECK(near.about() == "12A");
    const Error far = not_on_file("no class x on file", "x", {"12A", "13B"}, Error::Remedy::list_classes);
    CHECK(far.remedy() == Error::Remedy::list_classes);
    CHECK(far.about().empty());
}

TEST_CASE("blanks at the ends of a text go, those of typesetting too") {
    CHECK(trimmed(" \t7b ") == "7b");
    CHECK(trimmed("\u00A07 b\u202F\u2003") == "7 b");
    CHECK(trimmed("\u3000\u00A0").empty());
    CHECK(trimmed("").empty());
    CHECK(trimmed("\u00E0") == "\u00E0");
}
