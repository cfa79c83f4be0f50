#include "view/page/report_topics.hpp"
#include "view/page/html.hpp"

#include "view/page/report_page.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::size_t topics_shown = 8;

Chart chart_of(const std::vector<ReportTopic>& topics) {
    std::vector<TopicShare> shares;
    for (const ReportTopic& topic : topics)
        shares.push_back(topic.share);
    Chart chart = topics_chart("topics-chart", shares);
    const bool has_advice = std::any_of(topics.begin(), topics.end(),
                                        [](const ReportTopic& topic) { return !topic.advice.empty(); });
    if (has_advice) {
        chart.table.columns.push_back({"advice"});
        for (std::size_t i = 0; i < topics.size(); ++i)
            chart.table.rows[i].push_back(topics[i].advice);
    }
    return chart;
}

} // namespace

std::vector<ReportTopic> report_topics(const std::vector<TopicDiagnosis>& topics) {
    std::vector<ReportTopic> shown;
    for (const TopicDiagnosis& topic : topics) {
        const double share = static_cast<double>(topic.unaided().count()) / topic.marks.count();
        shown.push_back({{topic.topic.empty() ? "(no topic)" : topic.topic, share, topic.unaided_interval.low,
                          topic.unaided_interval.high, topic.parts},
                         topic.advice ? std::string(name(*topic.advice)) : ""});
    }
    return shown;
}

std::string topic_figures(const std::vector<ReportTopic>& topics) {
    const std::size_t shown = std::min(topics.size(), topics_shown);
    const std::string others =
        topics.size() > shown ? "And " + std::to_string(topics.size() - shown) + " more topics. " : "";
    return to_html(chart_of({topics.begin(), topics.begin() + static_cast<std::ptrdiff_t>(shown)})) +
           paragraph(others +
                     "The fewer parts a share comes from, the wider its interval: a wide one means that "
                     "little is known yet.");
}

} // namespace inkturn
