#pragma once

#include <string>
#include <vector>

namespace inkturn {

/// Names a question of a paper.
struct QuestionName {
    std::string paper;    ///< id
    std::string question; ///< label of one of Paper::questions()

    friend bool operator==(const QuestionName& a, const QuestionName& b);
    friend bool operator<(const QuestionName& a, const QuestionName& b);
};

/// One question that appears in several papers because it was drawn; the first is where it came from.
using Copies = std::vector<QuestionName>;

} // namespace inkturn
