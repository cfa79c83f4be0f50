#include "view/text/diagnosis.hpp"

#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <initializer_list>
#include <iterator>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::array<Advice, 6> all_advice{Advice::relearn, Advice::recall, Advice::care,
                                           Advice::pace,    Advice::firm,   Advice::too_little};

std::string shown(const std::string& topic) {
    return topic.empty() ? "(no topic)" : topic;
}

std::string count(Marks marks) {
    return marks == Marks(0) ? "" : std::to_string(marks.count());
}

/// In per cent, rounded outwards.
std::string interval_text(const Interval& interval) {
    return std::to_string(std::lround(std::floor(100 * interval.low))) + "-" +
           std::to_string(std::lround(std::ceil(100 * interval.high))) + "%";
}

std::string in_an_hour(const TopicDiagnosis& topic) {
    if (topic.work == Seconds(0))
        return "-";
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.1f", topic.marks_per_hour());
    return text.data();
}

std::vector<std::string> lost_row(const TopicDiagnosis& topic, std::initializer_list<Marks> lost) {
    std::vector<std::string> row{shown(topic.topic)};
    std::transform(lost.begin(), lost.end(), std::back_inserter(row), count);
    return row;
}

bool codes_tell(const TopicDiagnosis& topic) {
    return topic.lost_code_unknown < topic.lost.all();
}

std::string meaning(Advice advice) {
    switch (advice) {
    case Advice::relearn:
        return "the method goes";
    case Advice::recall:
        return "facts to know by heart go";
    case Advice::care:
        return "slips and misreadings, or accuracy after a right method";
    case Advice::pace:
        return "unfinished, not tried, or done in overtime";
    case Advice::firm:
        return "next to nothing goes";
    case Advice::too_little:
        return "too few parts, or too few reasons and codes";
    }
    return "";
}

/// Short, for a column of many.
std::string advice_text(const std::optional<Advice>& advice) {
    if (!advice)
        return "-";
    return *advice == Advice::too_little ? "too little" : std::string(name(*advice));
}

} // namespace

Table topics_table(const std::vector<TopicDiagnosis>& topics) {
    Table table({{"topic", Align::left_may_be_cut},
                 {"parts", Align::right},
                 {"marks", Align::right},
                 {"own", Align::right},
                 {"95%", Align::right},
                 {"overtime", Align::right},
                 {"what to do"},
                 {"an hour", Align::right}});
    for (const TopicDiagnosis& topic : topics)
        table.add_row({shown(topic.topic), std::to_string(topic.parts), std::to_string(topic.marks.count()),
                       percent(topic.unaided(), topic.marks), interval_text(topic.unaided_interval),
                       percent(topic.overtime, topic.unaided()), advice_text(topic.advice),
                       in_an_hour(topic)});
    return table;
}

std::optional<Table> lost_by_reason_table(const std::vector<TopicDiagnosis>& topics) {
    std::vector<Table::Column> columns{{"topic", Align::left_may_be_cut}, {"lost", Align::right}};
    for (const Reason reason : all_reasons)
        columns.push_back({std::string(name(reason)), Align::right});
    columns.push_back({"unstated", Align::right});
    Table table(std::move(columns));
    bool any = false;
    for (const TopicDiagnosis& topic : topics) {
        const LostByReason& lost = topic.lost;
        if (lost.all() == Marks(0))
            continue;
        any = true;
        table.add_row(lost_row(topic, {lost.all(), lost.of(Reason::method), lost.of(Reason::recall),
                                       lost.of(Reason::slip), lost.of(Reason::misread),
                                       lost.of(Reason::unfinished), lost.unstated}));
    }
    return any ? std::optional<Table>(std::move(table)) : std::nullopt;
}

std::optional<Table> lost_by_code_table(const std::vector<TopicDiagnosis>& topics) {
    if (std::none_of(topics.begin(), topics.end(), codes_tell))
        return std::nullopt;
    Table table({{"topic", Align::left_may_be_cut},
                 {"lost", Align::right},
                 {"M", Align::right},
                 {"A", Align::right},
                 {"A after M", Align::right},
                 {"B", Align::right},
                 {"other", Align::right},
                 {"not known", Align::right}});
    for (const TopicDiagnosis& topic : topics) {
        const LostByCode& lost = topic.lost_by_code;
        if (topic.lost.all() > Marks(0))
            table.add_row(
                lost_row(topic, {topic.lost.all(), lost.method, lost.accuracy, lost.accuracy_after_method,
                                 lost.independent, lost.other, topic.lost_code_unknown}));
    }
    return table;
}

std::string topics_key(const std::vector<TopicDiagnosis>& topics) {
    if (topics.empty())
        return "";
    std::string lines;
    for (const Advice advice : all_advice)
        if (std::any_of(topics.begin(), topics.end(),
                        [&](const TopicDiagnosis& topic) { return topic.advice == advice; }))
            lines += text_line(std::string(name(advice)) + ": " + meaning(advice) + ".");
    return lines +
           text_line("95%: where the own share may lie, the parts being so few. overtime: of own marks. an "
                     "hour: marks to win back for each hour of work.");
}

} // namespace inkturn
