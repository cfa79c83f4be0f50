#pragma once

#include <array>
#include <string_view>

namespace inkturn::printed {

// The trade's words, in lower case, the longer of two that begin alike first. Another language is a line in
// each of these lists.

/// Before or after the number of marks.
inline constexpr std::array<std::string_view, 10> words_for_marks{
    "marks", "mark", "points", "point", "mks", "mk", "pts", "pt", "punkte", "punkt"};
/// After the number alone: in brackets, or `p` far from the text.
inline constexpr std::array<std::string_view, 2> letters_for_marks{"p", "m"};
/// Before the number alone.
inline constexpr std::array<std::string_view, 3> words_before_marks{"out of", "max", "maximum"};

/// Before a question's number. One letter may touch it.
inline constexpr std::array<std::string_view, 8> words_for_question{
    "question", "problem", "exercise", "task", "item", "q", "aufgabe", "frage"};

/// Before a section's letter or number; the second on a short line only.
inline constexpr std::array<std::string_view, 2> words_for_section{"section", "part"};

/// What says that no question comes after it.
inline constexpr std::array<std::string_view, 5> words_that_end_paper{
    "end of questions", "end of paper", "end of question paper", "end of examination", "end of test"};
/// What begins the heading of an appendix.
inline constexpr std::array<std::string_view, 5> words_for_appendix{"appendix", "appendices", "formula",
                                                                    "data sheet", "data booklet"};
/// What is said to the candidate about the pages.
inline constexpr std::array<std::string_view, 10> words_of_notices{
    "blank page",      "intentionally blank",  "intentionally left blank", "do not write in",
    "do not write on", "do not write outside", "do not write below",       "end of question",
    "end of paper",    "end of section"};
/// What a table's columns are headed by.
inline constexpr std::array<std::string_view, 20> words_over_tables{
    "question", "questions", "part",     "number", "no",         "no.",   "answer",
    "answers",  "scheme",    "working",  "mark",   "marks",      "total", "notes",
    "comment",  "comments",  "guidance", "ao",     "additional", "q"};

/// What the name of a total begins with.
inline constexpr std::array<std::string_view, 11> words_before_total{
    "total", "the total", "maximum", "sum",     "question", "section",
    "paper", "end of",    "q",       "overall", "gesamt"};
/// What makes it a total.
inline constexpr std::array<std::string_view, 5> words_for_total{"total", "maximum mark", "sum:", "overall",
                                                                 "gesamt"};
/// What begins the paper's on its cover.
inline constexpr std::array<std::string_view, 5> words_for_total_on_cover{"total", "maximum", "max", "full",
                                                                          "gesamt"};

/// The paper as its cover names it.
inline constexpr std::array<std::string_view, 4> words_for_paper{"paper", "exam", "examination", "test"};

/// Before the time that a paper takes.
inline constexpr std::array<std::string_view, 11> words_for_time{
    "time",   "duration", "allow",       "allowed",          "have", "lasts",
    "length", "zeit",     "arbeitszeit", "bearbeitungszeit", "dauer"};
inline constexpr std::array<std::string_view, 8> words_for_hours{"hour", "hours", "hr",     "hrs",
                                                                 "h",    "std",   "stunde", "stunden"};
inline constexpr std::array<std::string_view, 5> words_for_minutes{"minute", "minutes", "min", "mins",
                                                                   "minuten"};

/// Whole numbers in words, from one on; beyond twenty the tens, with a hyphen or a blank before the rest.
inline constexpr std::array<std::string_view, 20> words_to_twenty{
    "one",     "two",     "three",     "four",     "five",     "six",      "seven",
    "eight",   "nine",    "ten",       "eleven",   "twelve",   "thirteen", "fourteen",
    "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"};
inline constexpr std::array<std::string_view, 8> words_for_tens{"twenty", "thirty",  "forty",  "fifty",
                                                                "sixty",  "seventy", "eighty", "ninety"};

} // namespace inkturn::printed
