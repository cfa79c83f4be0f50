#pragma once

#include "printed/label.hpp"
#include "printed/line.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn::printed {

/// How marks are printed: `#` is their number, or a sum such as `3+2`; `%` a word for marks after it, `@` one
/// before it.
struct MarksForm {
    std::string_view print;
    double worth; ///< of a paper whose marks are printed so, before it is read: less where text looks like it

    bool is_bracketed() const { return print.front() == '(' || print.front() == '[' || print.front() == '{'; }
    bool is_worded() const { return print.find_first_of("%@") != std::string_view::npos; }
    /// `[3 marks]` at a line's end is nothing else, wherever that end is.
    bool stands_by_its_words() const { return is_bracketed() && is_worded(); }
    bool is_bare() const { return print == "#" || print == "/#"; }
};

inline constexpr std::array<MarksForm, 12> marks_forms{{{"(#)", 0},
                                                        {"[#]", 0},
                                                        {"{#}", -0.1},
                                                        {"(#%)", 0},
                                                        {"[#%]", 0},
                                                        {"(@#)", 0},
                                                        {"[@#]", 0},
                                                        {"#%", 0},
                                                        {"@#", -0.2},
                                                        {"(/#)", -0.2},
                                                        {"/#", -1},
                                                        {"#", -3}}};

/// What may be marks.
struct PrintedMarks {
    std::size_t line = 0; ///< position in Layout::lines
    std::size_t form = 0; ///< position in marks_forms
    int count = 0;        ///< up to 9999
    Points left;
    Points right;
    Points gap; ///< before it; infinite where it is alone
    enum class Place : unsigned char { line_end, after_label, before_text } place = Place::line_end;
    bool after_sentence = false;
    bool may_number_a_formula = false; ///< in a row of numbers from 1 on, each beside a centred line
};

/// A total that says what it is the total of.
struct PrintedTotal {
    std::size_t line = 0;
    enum class Of : unsigned char { question, section, paper } of = Of::question;
    std::optional<int> question; ///< its number, where it is named
    int count = 0;
};

/// All that may be marks, in reading order.
struct MarksOnPaper {
    std::vector<PrintedMarks> marks;
    std::vector<PrintedTotal> totals;
};

MarksOnPaper recognise_marks(const Layout& layout);

/// The lines of all of them, ascending.
std::vector<std::size_t> lines_with_marks(const MarksOnPaper& all);

/// The marks before a line's text, as in `[3] (a)`, and the line without them; their `line` is left 0.
struct MarksBeforeText {
    PrintedMarks marks;
    Line rest;
};
std::optional<MarksBeforeText> read_marks_before(const Line& line);

/// Other marks of a line; their `line` is left 0. `next` may close a bracket that the line leaves open.
std::optional<PrintedMarks> read_marks(const Line& line, const Line* next = nullptr);

/// `Total for Question 7 is 12 marks`, `[Total 12]`, `Question 7 total: 12`, `[Maximum mark: 12]`, `TOTAL FOR
/// PAPER: 75 MARKS` at the end of a line; its `line` is left 0.
std::optional<PrintedTotal> read_total(const Line& line, const Line* next = nullptr);

/// Where a paper has its marks.
enum class MarksPlace : unsigned char {
    edge, ///< at the right edge where most are
    second_edge,
    line_end, ///< wherever a sentence ends
    after_label,
    before_text,
    above ///< alone on the line before the label
};
inline constexpr std::size_t marks_places = 6;

/// The marks of a paper that prints them so.
struct MarksChosen : MarksOnPaper {
    std::size_t form = 0;      ///< of the parts
    Shifts shifts;             ///< as the marks' edges show them
    bool add_up = false;       ///< several at a part are its marks together
    std::optional<int> each{}; ///< of every part, where the paper says so
};

MarksChosen chosen_marks(const Layout& layout, const MarksOnPaper& all, std::size_t form, MarksPlace place);

/// As it is printed: `[3]`.
std::string text_of(const PrintedMarks& marks);

/// `1 mark`, `5 marks`.
std::string marks_text(int count);

} // namespace inkturn::printed
