#pragma once

#include "printed/chain.hpp"
#include "printed/label.hpp"
#include "printed/line.hpp"

#include "inkturn/printed/paper.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn::printed {

/// A label of a question.
struct LabelOnLine {
    std::string label;          ///< short form
    std::size_t line;           ///< position in Layout::lines
    bool has_sub_parts = false; ///< labels under it
};

/// A question with its labels in reading order, its own number the first.
struct QuestionLabels {
    std::string label;
    int number; ///< without its section
    std::size_t line;
    std::size_t end; ///< the line of the next question, or Starts::end
    std::vector<LabelOnLine> labels;
    int letters_unread =
        0; ///< a, b, c as unusual labels would stand, taken for text as no marks stand at them
};

/// The starts of all lines, and what they are read against.
struct Starts {
    const Layout& layout;
    std::vector<PrintedLabel> lines;
    std::vector<bool> follow_marks; ///< the line before, other than one to write on, has marks at its end
    MarksBefore marks;              ///< marks before each line
    Shifts shifts;
    std::vector<NamedTotal> totals; ///< of questions that they name
    std::size_t end; ///< the line that ends the paper or heads its appendix, or the count of lines

    double shift_of(std::size_t line) const { return shifts.of(layout.region_of(layout.lines[line])); }
};

/// `lines_with_marks` are ascending positions in Layout::lines.
Starts read_starts(const Layout& layout, const std::vector<std::size_t>& lines_with_marks,
                   const Shifts& shifts, std::vector<NamedTotal> totals);

/// The questions in reading order; none where no number has marks after it. Gaps and repeats are doubts.
std::vector<QuestionLabels> recognise_questions(const Starts& starts, std::vector<Doubt>& doubts);

/// A doubt where numbers from 1 on stand before the first question, with marks at them. `starts` has all that
/// may be marks.
void doubt_numbers_before(const Starts& starts, const QuestionLabels& first, std::vector<Doubt>& doubts);

/// Finds the sub-parts of all questions. Letters printed in an unusual style are labels where in one question
/// of the paper marks stand between the first and the second of them.
void recognise_sub_parts(const Starts& starts, std::vector<QuestionLabels>& questions,
                         std::vector<Doubt>& doubts);

} // namespace inkturn::printed
