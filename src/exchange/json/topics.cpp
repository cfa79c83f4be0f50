#include "exchange/json/json.hpp"

namespace inkturn {
namespace {

double share(Marks part, Marks whole) {
    return static_cast<double>(part.count()) / whole.count();
}

Json json_of_codes(const TopicDiagnosis& topic) {
    const LostByCode& lost = topic.lost_by_code;
    return {{"method", lost.method.count()},
            {"accuracy", lost.accuracy.count()},
            {"accuracy_after_method", lost.accuracy_after_method.count()},
            {"independent", lost.independent.count()},
            {"other", lost.other.count()},
            {"unknown", topic.lost_code_unknown.count()}};
}

Json json_of(const TopicDiagnosis& topic) {
    return {{"topic", topic.topic},
            {"parts", topic.parts},
            {"marks", topic.marks.count()},
            {"own", topic.own().count()},
            {"own_share", share(topic.own(), topic.marks)},
            {"low", thousandths(topic.own_interval.low)},
            {"high", thousandths(topic.own_interval.high)},
            {"lost", json_of(topic.lost)},
            {"lost_codes", json_of_codes(topic)},
            {"overtime_share", topic.overtime_share()},
            {"advice", topic.advice ? Json(name(*topic.advice)) : Json(nullptr)},
            {"marks_per_hour", topic.advice ? Json(thousandths(topic.marks_per_hour())) : Json(nullptr)}};
}

Json json_of(const TrendSitting& sitting) {
    const Totals& sum = sitting.totals;
    const auto seconds_per_mark = sitting.seconds_per_mark();
    return {{"sitting", static_cast<std::int64_t>(sitting.id)},
            {"paper", sitting.paper->id()},
            {"date", iso(sitting.day)},
            {"again", sitting.time_sat > 1},
            {"marks", sum.max.count()},
            {"in_time_share", share(sum.in_time, sum.max)},
            {"own_share", share(sum.own(), sum.max)},
            {"corrected_share", share(sum.own() + sum.corrected, sum.max)},
            {"reach", share(sitting.reach, sum.max)},
            {"seconds_per_mark", seconds_per_mark ? Json(thousandths(*seconds_per_mark)) : Json(nullptr)},
            {"allowed_seconds_per_mark", thousandths(sitting.allowed_per_mark())},
            {"overtime_seconds", sitting.worked ? Json(sitting.worked->overtime.count()) : Json(nullptr)}};
}

} // namespace

Json json_of(const std::vector<TopicDiagnosis>& topics) {
    Json list = Json::array();
    for (const TopicDiagnosis& topic : topics)
        list.push_back(json_of(topic));
    return {{"topics", std::move(list)}};
}

Json json_of(const Trend& trend) {
    Json sittings = Json::array();
    for (const TrendSitting& sitting : trend.sittings)
        sittings.push_back(json_of(sitting));
    Json retries = Json::array();
    for (const TurnCount& count : trend.turns)
        retries.push_back({{"turn", count.turn}, {"done", count.done}, {"got", count.got}});
    return {{"sittings", std::move(sittings)}, {"retries", std::move(retries)}};
}

} // namespace inkturn
