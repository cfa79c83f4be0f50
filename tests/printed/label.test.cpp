#include "printed/label.hpp"

#include "pages.hpp"

#include "catch.hpp"

#include <string>
#include <tuple>
#include <vector>

using namespace inkturn;
using namespace inkturn::printed;

namespace {

/// What is read at the start of a line: number, sub-parts and what is left, with bars between them.
std::string read(const std::string& text) {
    Sheets sheets;
    sheets.turn();
    sheets.set(60, 100, text);
    const std::vector<Line> lines = lines_of(upright_words(sheets.pages().front()));
    const PrintedLabel label = read_line_start(lines.at(0));
    std::string all;
    if (label.number) {
        if (label.number->section)
            all += static_cast<char>('A' + *label.number->section - 1);
        all += std::to_string(label.number->number);
    }
    for (const PrintedSubPart& sub_part : label.sub_parts)
        all += "|" + sub_part.letters;
    return all + "|" + label.rest;
}

std::optional<int> heading(const std::string& text) {
    Sheets sheets;
    sheets.turn();
    sheets.set(60, 100, text);
    return section_heading(lines_of(upright_words(sheets.pages().front())).at(0));
}

} // namespace

TEST_CASE("a label is read at a line's start in the forms that papers print it in") {
    const std::vector<std::pair<const char*, const char*>> forms{
        {"7 Find the mass", "7|Find the mass"},
        {"7. Find", "7|Find"},
        {"7) Find", "7|Find"},
        {"Q7 Find", "7|Find"},
        {"Q7. Find", "7|Find"},
        {"Question 7 Find", "7|Find"},
        {"QUESTION 7: Find", "7|Find"},
        {"07 Find", "7|Find"},
        {"0 7 Find", "7|Find"},
        {"1 0 . 2 Find", "10|b|Find"},
        {"7 (a) Find", "7|a|Find"},
        {"7(a) Find", "7|a|Find"},
        {"7. (a) (i) Find", "7|a|i|Find"},
        {"7(b)(ii) Find", "7|b|ii|Find"},
        {"7 (b) (ii) Find", "7|b|ii|Find"},
        {"7b Find", "7|b|Find"},
        {"07.1 Find", "7|a|Find"},
        {"0 7 . 2 Find", "7|b|Find"},
        {"7.3", "7|c|"},
        {"A3 Find", "A3|Find"},
        {"B12 (a) Find", "B12|a|Find"},
        {"(a) Find", "|a|Find"},
        {"( a ) Find", "|a|Find"},
        {"(a) (i) Find", "|a|i|Find"},
        {"(ii) Find", "|ii|Find"},
        {"a) Find", "|a|Find"},
        {"(xiv) Find", "|xiv|Find"},
        {"*7 Find", "7|Find"},
        {"*(b) Find", "|b|Find"},
        {"QUESTION TWO", "2|"},
        {"Question twelve: Find", "12|Find"},
        {"Problem 7 Find", "7|Find"},
        {"3.5.1 Find", "3|e|i|Find"},
        {"0 1 . 1 0 Find", "1|j|Find"},
        {"a. Find", "|a|Find"},
        {"7 a. i. Find", "7|a|i|Find"},
        {"(B) Find", "|b|Find"},
        {"(2) Find", "|2|Find"},
        {"VII. Find", "7|Find"},
        {"II. 5 boats", "2|5 boats"},
        {"Task 7 Find", "7|Find"},
        {"Question fifteen Find", "15|Find"},
        {"A.7 Find", "A7|Find"},
    };
    for (const auto& [text, expected] : forms) {
        CAPTURE(text);
        CHECK(read(text) == expected);
    }
}

TEST_CASE("what only begins like a label is text") {
    for (const char* const text : {"Find 7",
                                   "7, 8 and 9",
                                   "7 = x",
                                   "7 + x",
                                   "7x + 1",
                                   "7% of them",
                                   "1000 people",
                                   "7th row",
                                   "0 metres",
                                   "(a), (b) and (c)",
                                   "(a). Then",
                                   "(B)",
                                   "(BC) is a line",
                                   "(ab) is a line",
                                   "(7)",
                                   "(70) boats",
                                   "a Find",
                                   "a.m. or p.m.",
                                   "Question ones",
                                   "f(3) = 2",
                                   "3.5.1.2 is a clause",
                                   "7:30 is a time",
                                   "-7",
                                   "(a",
                                   "a",
                                   "Q",
                                   "Question",
                                   "Questions 7",
                                   "V is a letter",
                                   "MIX. Then",
                                   "Tasks 7 and 8"}) {
        CAPTURE(text);
        CHECK(read(text) == "|" + std::string(text));
    }
}

TEST_CASE("digits far from each other are not a number with one box per digit") {
    Sheets sheets;
    sheets.turn();
    sheets.set(60, 100, "0");
    sheets.set(100, 100, "1");
    const PrintedLabel label = read_line_start(lines_of(upright_words(sheets.pages().front())).at(0));
    CHECK_FALSE(label.number);
}

TEST_CASE("a single letter is a label if a wide blank comes after it") {
    Sheets sheets;
    sheets.turn();
    sheets.set(60, 100, "a");
    sheets.set(85, 100, "Find");
    const PrintedLabel label = read_line_start(lines_of(upright_words(sheets.pages().front())).at(0));
    REQUIRE(label.sub_parts.size() == 1);
    CHECK(label.sub_parts.front().letters == "a");
    CHECK(label.sub_parts.front().style == LetterStyle::bare);
    CHECK(label.rest == "Find");
}

TEST_CASE("a number is one before the signs of a fraction, a wide blank after it") {
    Sheets sheets;
    sheets.turn();
    sheets.set(60, 100, "3");
    sheets.set(100, 100, "+");
    const PrintedLabel label = read_line_start(lines_of(upright_words(sheets.pages().front())).at(0));
    REQUIRE(label.number);
    CHECK(label.number->number == 3);
}

TEST_CASE("what ends a paper or heads an appendix is recognised by its words") {
    const auto line_of = [](Sheets& sheets, const std::string& text) {
        sheets.turn();
        sheets.set(60, 100, text);
        return lines_of(upright_words(sheets.pages().back())).at(0);
    };
    Sheets sheets;
    for (const char* const text : {"END OF QUESTIONS", "[END OF QUESTION PAPER]", "End of paper"}) {
        CAPTURE(text);
        CHECK(ends_paper(line_of(sheets, text)));
    }
    for (const char* const text :
         {"End of question 3", "END OF QUESTIONS FOR SECTION A", "The end of the road",
          "Stop where you find the end of paper in the box"}) {
        CAPTURE(text);
        CHECK_FALSE(ends_paper(line_of(sheets, text)));
    }
    CHECK(is_heading_of_appendix(line_of(sheets, "Appendix B")));
    CHECK(is_heading_of_appendix(line_of(sheets, "FORMULAE")));
    CHECK_FALSE(is_heading_of_appendix(line_of(sheets, "Formulae are given below for you")));
    CHECK_FALSE(is_heading_of_appendix(line_of(sheets, "The appendix")));
}

TEST_CASE("the edges of a number and the blank after it come from where its words are") {
    Sheets sheets;
    sheets.turn();
    sheets.set(60, 100, "12.");
    sheets.set(90, 100, "(a)");
    sheets.set(130, 100, "Find");
    const PrintedLabel label = read_line_start(lines_of(upright_words(sheets.pages().front())).at(0));
    REQUIRE(label.number);
    CHECK(label.number->left == Points(60));
    CHECK(label.number->right == Points(76.5));
    CHECK(label.number->style == NumberStyle::pointed);
    REQUIRE(label.sub_parts.size() == 1);
    CHECK(label.sub_parts.front().left == Points(90));
    CHECK(label.sub_parts.front().follows);
    CHECK(label.gap_after == Points(23.5));
}

TEST_CASE("roman numerals and letters are told apart") {
    CHECK(roman_number("i") == 1);
    CHECK(roman_number("iv") == 4);
    CHECK(roman_number("xx") == 20);
    CHECK(roman_number("iiii") == std::nullopt);
    CHECK(roman_number("a") == std::nullopt);
    CHECK(roman_number("") == std::nullopt);
    CHECK(roman_letters(1) == "i");
    CHECK(roman_letters(20) == "xx");
    CHECK(roman_letters(0).empty());
    CHECK(roman_letters(21).empty());
    CHECK(letter_number("a") == 1);
    CHECK(letter_number("i") == 9);
    CHECK(letter_number("z") == 26);
    CHECK(letter_number("A") == std::nullopt);
    CHECK(letter_number("ab") == std::nullopt);
}

TEST_CASE("a section's heading names its letter") {
    CHECK(heading("Section B") == 2);
    CHECK(heading("SECTION A: Pure") == 1);
    CHECK(heading("Section C, answer two") == 3);
    CHECK(heading("PART B (30 marks)") == 2);
    CHECK_FALSE(heading("Part B of the wheel turns by the second lamp"));
    CHECK_FALSE(heading("Section"));
    CHECK(heading("Section 2") == 2);
    CHECK_FALSE(heading("Section 20"));
    CHECK_FALSE(heading("Section 0"));
    CHECK_FALSE(heading("Sections A and B"));
    CHECK_FALSE(heading("The section B"));
    CHECK_FALSE(heading("Section Q"));
}
