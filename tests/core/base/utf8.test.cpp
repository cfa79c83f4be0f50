#include "inkturn/base/utf8.hpp"

#include "catch.hpp"

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

TEST_CASE("UTF-8 holds every code point only in its shortest form, and no surrogate") {
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

TEST_CASE("a character cut short is not UTF-8") {
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

TEST_CASE("a character is read back as it was appended, at its place in the text") {
    int wrong = 0;
    for (char32_t code = 0; code < 0x110000; ++code) {
        const bool a_character = !(code >= 0xD800 && code <= 0xDFFF);
        std::string text = "x";
        append_utf8(text, code);
        if (!a_character) {
            wrong += text == "x" ? 0 : 1;
            continue;
        }
        const auto read = utf8_character(text + "y", 1);
        wrong += read && read->code == code && read->length + 1 == text.size() ? 0 : 1;
    }
    CHECK(wrong == 0);
    std::string text;
    append_utf8(text, 0x110000);
    CHECK(text.empty());
    CHECK_FALSE(utf8_character("a\xA9", 1).has_value());
}

TEST_CASE("bytes that end within a character are distinguished from bytes that don't begin one") {
    CHECK(utf8_sequence("\xE2\x82\xAC") == Utf8Sequence::whole);
    CHECK(utf8_sequence("\xE2\x82") == Utf8Sequence::cut);
    CHECK(utf8_sequence("\xE2") == Utf8Sequence::cut);
    CHECK(utf8_sequence("\xE2x") == Utf8Sequence::bad);
    CHECK(utf8_sequence("\xED\xA0") == Utf8Sequence::bad); // a surrogate, whatever follows
    CHECK(utf8_sequence("\x82") == Utf8Sequence::bad);
}

TEST_CASE("a wide character takes two columns, a mark on the letter before none, all others one") {
    for (const char32_t narrow : {U'a', U'\u00E9', U'\u20AC', U'\u0915'})
        CHECK(column_count(narrow) == 1);
    CHECK(column_count(U'\u093E') == 1); // a vowel sign beside its letter
    for (const char32_t wide : {U'\u6570', U'\uAC00', U'\U0001F642'})
        CHECK(column_count(wide) == 2);
    for (const char32_t none : {U'\u0301', U'\u0941', U'\u200B'})
        CHECK(column_count(none) == 0);
}
