#pragma once

#include "printed/line.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn::printed {

/// How a paper prints the numbers of its questions; one paper keeps to one.
enum class NumberStyle : unsigned char {
    plain,     ///< `7`, and `07`
    pointed,   ///< `7.`
    bracketed, ///< `7)`
    worded,    ///< `Q7`, `Question 7`, `Question seven`, `Problem 7`
    roman,     ///< `VII.`
    enclosed   ///< `(7)`
};

/// A question's number at a line's start.
struct PrintedNumber {
    std::optional<int> section; ///< 1 for A; nothing if there is no letter before it
    int number = 0;             ///< 1 to 999
    NumberStyle style = NumberStyle::plain;
    Points left;
    Points right;
};

/// How a sub-part's letters are printed. All but the first look like words of the text, like options to
/// choose from or like numbers of formulae as well.
enum class LetterStyle : unsigned char {
    bracketed, ///< `(a)`, `a)`, and `7a`
    pointed,   ///< `a.`
    bare,      ///< `a` and a blank wider than one between words
    capital,   ///< `(A)`, `A)`
    counted    ///< `(1)`
};

/// A sub-part's letters as printed: `a` of `(a)`, `ii` of `(ii)`; `a` of `(A)`, `2` of `(2)`. `07.2` gives
/// `b`, `7.2.3` gives `b` and `iii`.
struct PrintedSubPart {
    std::string letters;
    Points left;
    Points right;
    bool follows = false; ///< another label on the same line
    LetterStyle style = LetterStyle::bracketed;
};

/// Something at a line's start that may be a label.
struct PrintedLabel {
    std::optional<PrintedNumber> number;
    std::vector<PrintedSubPart> sub_parts;
    std::optional<PrintedNumber> enclosed; ///< the first sub-part, where it is `(7)`
    std::string rest;                      ///< the beginning of the text after it
    std::size_t rest_at = 0;               ///< where that begins in the line's text
    std::optional<Points> gap_after;       ///< to that text
};

PrintedLabel read_line_start(const Line& line);

/// `Question` at a line's start and its number, or a number and its letter, below it at the next one's, as in
/// a narrow column.
std::optional<PrintedLabel> read_broken_label(const Line& line, const Line& next);

/// 1 to 20 for `i` to `xx`; nothing for what isn't a roman numeral.
std::optional<int> roman_number(std::string_view letters);
/// `i` to `xx` for 1 to 20; empty for anything else.
std::string_view roman_letters(int number);
/// 1 to 26 for a letter alone.
std::optional<int> letter_number(std::string_view letters);

/// `Section B` or `Section 2`, or `Part B` on a short line, as a heading: 2. Nothing if the line isn't one;
/// no label can have a section Q.
std::optional<int> section_heading(const Line& line);

/// `END OF QUESTIONS`, `End of paper`: what comes after it belongs to no question.
bool ends_paper(const Line& line);

/// A row of words over a table's columns, such as `Question Answer Marks`.
bool heads_table(const Line& line);

/// `Appendix`, `Formulae` or `Data sheet` as a heading.
bool is_heading_of_appendix(const Line& line);

} // namespace inkturn::printed
