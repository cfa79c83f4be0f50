#pragma once

#include "inkturn/paper/paper.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What a question is about, of the topics asked for.
struct QuestionTopic {
    std::string topic; ///< the one asked for with most of its marks, the first if tied
    Marks on_topics;   ///< its marks on all that are asked for
};

/// Nothing if it is on none of the topics. Where none are asked for all count, and a question that states
/// none has the empty topic.
std::optional<QuestionTopic> topic_of(const Paper& paper, const Question& question,
                                      const std::vector<std::string>& request);

} // namespace inkturn
