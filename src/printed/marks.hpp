#pragma once

#include "printed/line.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn::printed {

/// How marks are printed; a paper uses one form for its parts, and perhaps another for totals.
enum class MarksForm : unsigned char {
    round,        ///< `(3)`
    square,       ///< `[3]`
    round_worded, ///< `(3 marks)`
    square_worded,
    worded, ///< `3 marks`
    plain   ///< `3` in a column headed `Marks`
};

/// Marks at a line's end, or right after a label.
struct PrintedMarks {
    std::size_t line = 0; ///< position in Layout::lines
    MarksForm form = MarksForm::round;
    int count = 0; ///< up to 9999
    double left = 0;
    double right = 0;
    double gap = 0; ///< points before it; infinite where it stands alone
    bool after_sentence = false;
    bool after_label = false;          ///< nothing but a label before it
    bool may_number_a_formula = false; ///< in a row of numbers from 1 on, each beside a centred line
};

/// A total that says of what it is one.
struct PrintedTotal {
    std::size_t line = 0;
    enum class Of : unsigned char { question, section, paper } of = Of::question;
    std::optional<int> question; ///< its number, where it is named
    int count = 0;
};

/// What a paper says of marks, in reading order.
struct MarksOnPaper {
    MarksForm form = MarksForm::round; ///< of the parts
    std::vector<PrintedMarks> marks;
    std::vector<PrintedTotal> totals;
    Shifts shifts; ///< as the marks' edges show them
};

/// All that may be marks; the commonest form is taken for that of parts.
MarksOnPaper recognise_marks(const Layout& layout);

/// Keeps the marks of questions, which begin at the lines `bounds` and end before the last of them, at the
/// edge at which most stand. Their commonest form is taken for that of parts, unless it states the sums of
/// another one.
MarksOnPaper marks_of_questions(const Layout& layout, MarksOnPaper found,
                                const std::vector<std::size_t>& bounds);

/// As it is printed: `[3]`.
std::string text_of(const PrintedMarks& marks);

/// `1 mark`, `5 marks`.
std::string marks_text(int count);

} // namespace inkturn::printed
