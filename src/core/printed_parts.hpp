#pragma once

#include "core/printed_chain.hpp"
#include "core/printed_label.hpp"
#include "core/printed_line.hpp"

#include "inkturn/printed_paper.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn::printed {

/// A label of a question.
struct LabelFound {
    std::string label;          ///< short form
    std::size_t line;           ///< position in Layout::lines
    bool has_sub_parts = false; ///< labels under it
};

/// A question with its labels in reading order, its own number the first.
struct QuestionLabels {
    std::string label;
    int number; ///< without its section
    std::size_t line;
    std::size_t end; ///< the line of the next question, or the count of lines
    std::vector<LabelFound> labels;
};

/// The starts of all lines, and what they are read against.
struct Starts {
    const Layout& layout;
    std::vector<LabelRead> lines;
    std::vector<bool> follow_marks; ///< the line before, other than one to write on, has marks at its end
    MarksBefore marks;              ///< marks before each line
    Shifts shifts;

    double shift_of(std::size_t line) const { return shifts.of(layout.region_of(layout.lines[line])); }
};

/// `lines_with_marks` are ascending positions in Layout::lines.
Starts read_starts(const Layout& layout, const std::vector<std::size_t>& lines_with_marks,
                   const Shifts& shifts);

/// The questions in reading order; none where no number has marks after it. Gaps and repeats are doubts.
std::vector<QuestionLabels> find_questions(const Starts& starts, std::vector<Doubt>& doubts);

/// Finds the sub-parts of a question.
void find_sub_parts(const Starts& starts, QuestionLabels& question, std::vector<Doubt>& doubts);

} // namespace inkturn::printed
