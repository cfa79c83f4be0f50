#include "inkturn/base/text.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <string>

namespace {

using namespace inkturn;

/// The bytes of a code point in so many bytes, whether or not that is its shortest form.
std::string encoded(char32_t code, int length) {
    if (length == 1)
        return {static_cast<char>(code)};
    constexpr unsigned leads[] = {0, 0, 0xC0, 0xE0, 0xF0};
    std::string bytes;
    for (int i = length - 1; i > 0; --i, code >>= 6)
        bytes.insert(bytes.begin(), static_cast<char>(0x80 | (code & 0x3F)));
    bytes.insert(bytes.begin(), static_cast<char>(leads[length] | code));
    return bytes;
}

int shortest(char32_t code) {
    return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}

} // namespace

TEST_CASE("UTF-8 holds every code point in its shortest form alone, and no surrogate") {
    int wrong = 0;
    for (char32_t code = 0; code < 0x1FFFFF; ++code) {
        const bool a_character = code <= 0x10FFFF && !(code >= 0xD800 && code <= 0xDFFF);
        const std::string bytes = encoded(code, shortest(code));
        if (is_utf8(bytes) != a_character || (a_character && character_count(bytes) != 1))
            ++wrong;
        for (int length = shortest(code) + 1; length <= 4; ++length)
            if (is_utf8(encoded(code, length)))
                ++wrong;
    }
    CHECK(wrong == 0);
}

TEST_CASE("a character cut short is no UTF-8") {
    for (const std::string whole : {"\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9F\x99\x82"}) {
        REQUIRE(is_utf8("a" + whole + "b"));
        CHECK_FALSE(is_utf8(whole + "\x80"));
        CHECK_FALSE(is_utf8(whole + "\xFFz"));
        for (std::size_t length = 1; length < whole.size(); ++length) {
            CHECK_FALSE(is_utf8(whole.substr(0, length)));
            CHECK_FALSE(is_utf8(whole.substr(0, length) + "b"));
            CHECK_FALSE(is_utf8(whole.substr(length)));
        }
    }
    for (const char* const bytes : {"\x80", "\xBF", "\xC0\x80", "\xF8\x88\x80\x80\x80", "\xFE", "\xFF"})
        CHECK_FALSE(is_utf8(bytes));
    CHECK(is_utf8(""));
}

TEST_CASE("control characters are those of ASCII and of C1") {
    for (const char32_t code : {0x01u, 0x09u, 0x0Au, 0x1Bu, 0x1Fu, 0x7Fu, 0x80u, 0x9Bu, 0x9Fu})
        CHECK(has_control_character("a" + encoded(code, shortest(code))));
    for (const char32_t code : {0x20u, 0x7Eu, 0xA0u, 0xDBu, 0x49Bu, 0x10FFFFu})
        CHECK_FALSE(has_control_character("a" + encoded(code, shortest(code))));
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
