#pragma once

#include "printed/line.hpp"
#include "printed/parts.hpp"

#include "inkturn/printed/paper.hpp"

#include <vector>

namespace inkturn::printed {

/// Gives each part the first words printed after its label, up to the next label or the end of its question;
/// the first part of a question has those before its own label too.
void read_words(PrintedPaper& paper, const Layout& layout, const std::vector<QuestionLabels>& questions);

} // namespace inkturn::printed
