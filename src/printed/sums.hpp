#pragma once

#include "printed/marks.hpp"
#include "printed/parts.hpp"

#include "inkturn/printed/paper.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn::printed {

/// Gives each part its marks and appends the question with its parts to the paper; what disagrees is a doubt.
void append_question(PrintedPaper& paper, const Layout& layout, const QuestionLabels& question,
                     const MarksChosen& marks);

/// A doubt where a question's parts don't add up to its total; without one, nothing.
void doubt_total(PrintedPaper& paper, const PrintedQuestion& question, std::optional<std::size_t> page);
/// Likewise of the paper.
void doubt_total(PrintedPaper& paper, int sum);

/// The last line of a question with marks or its total; its first where there are none.
std::size_t last_line_with_marks(const QuestionLabels& question, const MarksChosen& marks);

} // namespace inkturn::printed
