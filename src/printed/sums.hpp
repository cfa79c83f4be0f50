#pragma once

#include "printed/marks.hpp"
#include "printed/parts.hpp"

#include "inkturn/printed/paper.hpp"

#include <cstddef>
#include <vector>

namespace inkturn::printed {

/// Gives each part its marks and appends the question with its parts to the paper; what disagrees is a doubt.
void append_question(PrintedPaper& paper, const Layout& layout, const QuestionLabels& question,
                     const MarksOnPaper& marks);

/// The last line of a question at which marks or its total stand; its first where none do.
std::size_t last_line_with_marks(const QuestionLabels& question, const MarksOnPaper& marks);

} // namespace inkturn::printed
