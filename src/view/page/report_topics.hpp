#pragma once

#include "inkturn/statistics/diagnosis.hpp"
#include "view/figure/figures.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A topic as a report shows it.
struct ReportTopic {
    TopicShare share;
    std::string advice; ///< what to do about it; may be empty
};

/// In the same order.
std::vector<ReportTopic> report_topics(const std::vector<TopicDiagnosis>& topics);

/// HTML of the figure of the eight topics that come first, with a column for the advice if there is any in
/// its table, and how many more there are. At least one topic.
std::string topic_figures(const std::vector<ReportTopic>& topics);

} // namespace inkturn
