#include "view/text/text.hpp"

#include "catch.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"

#include <random>
#include <string>

using namespace inkturn;

TEST_CASE("plain text is shown as it is") {
    for (const char* const text :
         {"", "K07", "7b=2+1", "\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9F\x99\x82", "a\\x1b"})
        CHECK(visible(text) == text);
}

TEST_CASE("control characters of ASCII are written out") {
    CHECK(visible("\x1b[31mred") == "\\x1b[31mred");
    CHECK(visible("a\nb\tc\rd") == "a\\x0ab\\x09c\\x0dd");
    CHECK(visible(std::string("a\0b", 3)) == "a\\x00b");
    CHECK(visible("\x7f") == "\\x7f");
}

TEST_CASE("control characters of C1 are written out") {
    CHECK(visible("\xC2\x9B"
                  "31m") == "\\x9b31m");
    CHECK(visible("\xC2\x80\xC2\x9F") == "\\x80\\x9f");
    CHECK(visible("\xC2\xA0") == "\xC2\xA0");
}

TEST_CASE("characters that change the direction of writing, or break lines, are written out") {
    CHECK(visible("a\xE2\x80\xAE"
                  "b") == "a\\u202eb");
    CHECK(visible("\xE2\x81\xA6\xE2\x81\xA9") == "\\u2066\\u2069");
    CHECK(visible("\xE2\x80\x8E\xE2\x80\x8F") == "\\u200e\\u200f");
    CHECK(visible("\xD8\x9C") == "\\u061c");
    CHECK(visible("\xE2\x80\xA8\xE2\x80\xA9") == "\\u2028\\u2029");
    CHECK(visible("\xD7\x90") == "\xD7\x90"); // a letter that is written from right to left is just a letter
}

TEST_CASE("bytes that are not UTF-8 are written out, one by one") {
    CHECK(visible("\xFF") == "\\xff");
    CHECK(visible("a\xC3") == "a\\xc3");
    CHECK(visible("\xC3(") == "\\xc3(");
    CHECK(visible("\xE2\x82") == "\\xe2\\x82");
    CHECK(visible("\x9B") == "\\x9b");
    CHECK(visible("\xC0\x9B") == "\\xc0\\x9b");
    CHECK(visible("\xED\xA0\x80") == "\\xed\\xa0\\x80");
}

TEST_CASE("whatever the bytes, what is shown is UTF-8 without control characters, and is shown as itself") {
    std::mt19937 dice(9);
    for (int round = 0; round < 20000; ++round) {
        std::string bytes;
        for (std::size_t i = dice() % 12; i > 0; --i)
            bytes += static_cast<char>(dice() % 2 == 0 ? dice() % 256 : 0x80 + dice() % 0x60);
        const std::string shown = visible(bytes);
        if (!is_utf8(shown) || has_control_character(shown) || visible(shown) != shown)
            FAIL(shown);
    }
    SUCCEED();
}

TEST_CASE("columns are those of a terminal: wide characters take two, combining ones none") {
    CHECK(columns("") == 0);
    CHECK(columns("K07") == 3);
    CHECK(columns("\xC3\xA9") == 1);
    CHECK(columns("e\xCC\x81") == 1);
    CHECK(columns("\xE6\x95\xB0\xE5\xAD\xA6") == 4);
}

TEST_CASE("text is padded or cut to its width") {
    CHECK(fitted("abc", 5) == "abc  ");
    CHECK(fitted("abc", 3) == "abc");
    CHECK(fitted("abcdef", 5) == "abc..");
    CHECK(fitted("abcdef", 2) == "..");
    CHECK(fitted("abcdef", 1) == ".");
    CHECK(fitted("abcdef", 0) == "");
}

TEST_CASE("a cut never splits a character, and always fills its width") {
    const std::string wide = "\xE6\x95\xB0\xE5\xAD\xA6\xE6\x95\xB0";
    CHECK(fitted(wide, 6) == wide);
    CHECK(fitted(wide, 5) == "\xE6\x95\xB0.. ");
    for (const std::string& text : {wide, std::string("a") + wide, std::string("e\xCC\x81t\xC3\xA9 ") + wide})
        for (std::size_t width = 0; width < 12; ++width) {
            CHECK(columns(fitted(text, width)) == width);
            CHECK(is_utf8(fitted(text, width)));
        }
}

TEST_CASE("text is broken at blanks, and indented from the second line on") {
    CHECK(wrapped("one two three", 7) == "one two\nthree");
    CHECK(wrapped("one two three", 7, 2) == "one two\n  three");
    CHECK(wrapped("one two", 80) == "one two");
    CHECK(wrapped("longer than that", 4) == "longer\nthan\nthat");
    CHECK(wrapped("", 4) == "");
}

TEST_CASE("a list is broken only between its items, unless one is longer than a line") {
    CHECK(wrapped_list({"K01 10", "K02 9", "K03 8"}, 13, 2) == "K01 10,\n  K02 9, K03 8");
    CHECK(wrapped_list({"K01 10", "K02 9"}, 80, 2) == "K01 10, K02 9");
    CHECK(wrapped_list({"longer than the width", "b"}, 5, 1) == "longer\n than\n the\n width,\n b");
    CHECK(wrapped_list({}, 5, 1).empty());
}

TEST_CASE("a number has as many decimals as wanted, and no sign if it rounds to 0") {
    CHECK(decimal(2.0 / 3, 2) == "0.67");
    CHECK(decimal(12, 1) == "12.0");
    CHECK(decimal(-0.25, 2) == "-0.25");
    CHECK(decimal(-0.004, 2) == "0.00");
    CHECK(decimal(-0.04, 1) == "0.0");
    CHECK(decimal(-0.4, 0) == "0");
}

TEST_CASE("a word of a command is quoted if a shell would split it") {
    CHECK(shell_word("integration") == "integration");
    CHECK(shell_word("parts-2.csv") == "parts-2.csv");
    CHECK(shell_word("Newton's laws") == "'Newton'\\''s laws'");
    CHECK(shell_word("a; rm *") == "'a; rm *'");
    CHECK(shell_word("$HOME") == "'$HOME'");
    CHECK(shell_word("") == "''");
    CHECK(shell_argument("-5 and below") == "-- '-5 and below'");
    CHECK(shell_argument("vectors") == "vectors");
}

TEST_CASE("only the first eight names are listed") {
    CHECK(list_text({"b", "a"}) == "a, b");
    CHECK(list_text({"1", "2", "3", "4", "5", "6", "7", "8"}) == "1, 2, 3, 4, 5, 6, 7, 8");
    CHECK(list_text({"1", "2", "3", "4", "5", "6", "7", "8", "9"}) == "1, 2, 3, 4, 5, 6, 7, 8, ...");
    CHECK(list_text({}).empty());
}
