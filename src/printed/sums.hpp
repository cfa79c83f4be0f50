#pragma once

#include "printed/marks.hpp"
#include "printed/parts.hpp"

#include "inkturn/printed/paper.hpp"

#include <cstddef>
#include <vector>

namespace inkturn::printed {

/// Gives each part its marks and appends the question with its parts to the paper; what disagrees is a doubt.
/// Returns how many parts have marks more than once.
std::size_t append_question(PrintedPaper& paper, const Layout& layout, const QuestionLabels& question,
                            const MarksChosen& marks);

/// The last line of a question with marks or its total; its first where there are none.
std::size_t last_line_with_marks(const QuestionLabels& question, const MarksChosen& marks);

} // namespace inkturn::printed
