#pragma once

#include "inkturn/statistics/diagnosis.hpp"
#include "view/figure/figures.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A topic as a report shows it.
struct ReportTopic {
    TopicShare share;
    std::string cost;   ///< marks a paper; may be empty
    std::string advice; ///< what to do about it; may be empty
};

struct ReportTopics {
    std::vector<ReportTopic> shown;   ///< the costliest first
    std::size_t candidates = 0;       ///< whose marks the shares rest on
    std::vector<std::string> notes{}; ///< see topic_notes()
};

/// Those with an outlook.
ReportTopics report_topics(const std::vector<TopicDiagnosis>& topics, std::size_t candidates);

/// HTML of the figure of the eight topics that come first, with columns for what they cost and for the advice
/// in its table, and how many more there are. At least one topic.
std::string topic_figures(const ReportTopics& topics);

} // namespace inkturn
