#pragma once

#include "printed/marks.hpp"
#include "printed/parts.hpp"

#include "inkturn/printed/paper.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn::printed {

/// Gives each part its marks and appends the question with its parts to the paper; what disagrees is a doubt.
void append_question(PrintedPaper& paper, const Layout& layout, const QuestionLabels& question,
                     const MarksChosen& marks);

/// A doubt where the sum of what adds up to it differs from what is stated.
void doubt_sum(std::vector<Doubt>& doubts, std::optional<std::size_t> page, const std::string& what, int sum,
               const std::string& stated_by, int stated, const std::string& question = {});

/// Likewise of a question's parts, if a total is stated.
void doubt_total(std::vector<Doubt>& doubts, const PrintedPaper& paper, const PrintedQuestion& question,
                 std::optional<std::size_t> page);

/// The last line of a question with marks or its total; its first where there are none.
std::size_t last_line_with_marks(const QuestionLabels& question, const MarksChosen& marks);

} // namespace inkturn::printed
