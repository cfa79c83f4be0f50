#pragma once

#include "printed/chain.hpp"
#include "printed/label.hpp"
#include "printed/line.hpp"
#include "printed/marks.hpp"

#include "inkturn/printed/paper.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
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
    bool has_unread_after_marks = false; ///< something that may be a label, where one could begin
    int letters_unread = 0; ///< a, b, c where labels would be, taken for a list because of their marks

    /// The next line with a label after that of the one at a position, or the end.
    std::size_t end_of(std::size_t position) const {
        const auto next = std::find_if(labels.begin(), labels.end(), [&](const LabelOnLine& other) {
            return other.line > labels[position].line;
        });
        return next == labels.end() ? end : next->line;
    }
};

/// What is found under a label, such as a part; its end where there is none.
template <typename Found>
auto find_label(const std::vector<Found>& all, std::string_view label) {
    return std::find_if(all.begin(), all.end(), [&](const Found& found) { return found.label == label; });
}

/// What a line begins with, or says as a whole.
struct LineStart {
    PrintedLabel label;
    std::optional<int> section; ///< that it heads
    bool is_to_write_on;
    bool ends_paper;
    bool heads_appendix;
};

/// The starts of all lines, or what comes after the marks that stand there. Where a label is broken in a
/// narrow column, it is that of its first line.
std::vector<LineStart> starts_of(const Layout& layout, const std::vector<PrintedMarks>& marks = {});

/// The starts of lines, and what they are read against.
struct Starts {
    const Layout& layout;
    const std::vector<LineStart>& lines;
    std::vector<bool> follow_marks; ///< the line before, other than one to write on, has marks at its end
    MarksBefore marks;              ///< marks before each line
    Shifts shifts;
    std::size_t end; ///< the line that ends the paper or heads its appendix, or the count of lines

    const PrintedLabel& label(std::size_t line) const { return lines[line].label; }
    /// A label between two edges on a line that begins at a third one, which labels may share too, as `1 (a)`
    /// and `(b)` below it in a scheme.
    Rung rung(std::size_t line, Points left, Points right, Points line_left) const {
        const Points shift = shifts.of(layout.region_of(layout.lines[line]));
        return {line, std::nullopt, 0, left - shift, right - shift, line_left - shift};
    }
};

/// `lines_with_marks` are ascending positions in Layout::lines.
Starts read_starts(const Layout& layout, const std::vector<LineStart>& lines,
                   const std::vector<std::size_t>& lines_with_marks, const Shifts& shifts);

/// How the questions of a paper are numbered.
struct Numbering {
    bool enclosed = false;   ///< `(7)`; else in any other style
    bool by_section = false; ///< from 1 on under each heading of a section
};

/// The questions in reading order; none where no number has marks after it. Gaps and repeats are doubts.
std::vector<QuestionLabels> recognise_questions(const Starts& starts, const Numbering& numbering,
                                                std::vector<Doubt>& doubts);

/// A doubt where numbers from 1 on come before the first question, with marks. `starts` has all that may be
/// marks.
void doubt_numbers_before(const Starts& starts, const QuestionLabels& first, std::vector<Doubt>& doubts);

/// Finds the sub-parts of all questions: labels of which none, or only the last of three or more,
/// has marks are a list.
void recognise_sub_parts(const Starts& starts, std::vector<QuestionLabels>& questions,
                         std::vector<Doubt>& doubts);

} // namespace inkturn::printed
