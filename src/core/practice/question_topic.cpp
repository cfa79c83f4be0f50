#include "core/practice/question_topic.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {

std::optional<QuestionTopic> topic_of(const Paper& paper, const Question& question,
                                      const std::vector<std::string>& request) {
    std::vector<std::pair<std::string, Marks>> sums;
    Marks on_topics(0);
    for (const std::size_t position : question.parts) {
        const Part& part = paper.parts()[position];
        const bool counts = request.empty()
                                ? !part.topic.empty()
                                : std::find(request.begin(), request.end(), part.topic) != request.end();
        if (!counts)
            continue;
        on_topics += part.max;
        auto sum = std::find_if(sums.begin(), sums.end(),
                                [&](const auto& other) { return other.first == part.topic; });
        if (sum == sums.end())
            sum = sums.insert(sum, {part.topic, Marks(0)});
        sum->second += part.max;
    }
    const auto most = std::max_element(sums.begin(), sums.end(),
                                       [](const auto& a, const auto& b) { return a.second < b.second; });
    if (most != sums.end())
        return QuestionTopic{most->first, on_topics};
    return request.empty() ? std::optional(QuestionTopic{"", question.marks}) : std::nullopt;
}

} // namespace inkturn
