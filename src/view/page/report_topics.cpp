#include "view/page/report_topics.hpp"
#include "view/page/html.hpp"

#include "view/page/report_page.hpp"
#include "view/text/diagnosis.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::size_t topics_shown = 8;

Chart chart_of(const std::vector<ReportTopic>& topics) {
    std::vector<TopicShare> shares;
    for (const ReportTopic& topic : topics)
        shares.push_back(topic.share);
    Chart chart = topics_chart("topics-chart", shares);
    chart.table.columns.push_back({"marks a paper"});
    chart.table.columns.push_back({"what to do"});
    for (std::size_t i = 0; i < topics.size(); ++i) {
        chart.table.rows[i].push_back(topics[i].cost);
        chart.table.rows[i].push_back(topics[i].advice);
    }
    return chart;
}

} // namespace

ReportTopics report_topics(const std::vector<TopicDiagnosis>& topics, std::size_t candidates) {
    ReportTopics all;
    all.candidates = candidates;
    all.notes =
        topic_notes({topics.begin(),
                     topics.begin() + static_cast<std::ptrdiff_t>(std::min(topics.size(), topics_shown))});
    for (const TopicDiagnosis& topic : topics)
        if (const auto& outlook = topic.outlook)
            all.shown.push_back(
                {{topic.topic, outlook->share, outlook->range.low, outlook->range.high, topic.distinct_parts},
                 one_decimal(outlook->marks_a_paper),
                 advice_text(topic)});
    return all;
}

std::string topic_figures(const ReportTopics& topics) {
    const std::size_t shown = std::min(topics.shown.size(), topics_shown);
    const std::string others = topics.shown.size() > shown
                                   ? "And " + std::to_string(topics.shown.size() - shown) + " more topics. "
                                   : "";
    std::string notes;
    for (const std::string& note : topics.notes)
        notes += note + " ";
    return to_html(
               chart_of({topics.shown.begin(), topics.shown.begin() + static_cast<std::ptrdiff_t>(shown)})) +
           paragraph(
               others + notes +
               "The dot is the share of marks in time to be expected in new parts, the line where it lies "
               "four times in five, from " +
               marks_of_text(topics.candidates) +
               " in parts not seen before. The topics that cost the most marks in a paper come first. "
               "\u201cProbably\u201d means that too little has been seen to be sure.");
}

} // namespace inkturn
