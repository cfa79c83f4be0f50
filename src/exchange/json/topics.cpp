#include "exchange/json/topics.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {
namespace {

Json lost_by_code(const TopicDiagnosis& topic) {
    const LostByCode& lost = topic.lost_by_code;
    return {{"method", lost.method.count()},
            {"accuracy", lost.accuracy.count()},
            {"accuracy_after_method", lost.accuracy_after_method.count()},
            {"independent", lost.independent.count()},
            {"other", lost.other.count()},
            {"unknown", topic.lost_code_unknown.count()}};
}

Json value_of(const TopicDiagnosis& topic) {
    return {{"topic", topic.topic},
            {"parts", topic.parts},
            {"marks", topic.marks.count()},
            {"own", topic.unaided().count()},
            {"own_share", share(topic.unaided(), topic.marks)},
            {"low", thousandths(topic.unaided_interval.low)},
            {"high", thousandths(topic.unaided_interval.high)},
            {"lost", value_of(topic.lost)},
            {"lost_codes", lost_by_code(topic)},
            {"overtime_share", topic.overtime_share()},
            {"advice", topic.advice ? Json(name(*topic.advice)) : Json(nullptr)},
            {"marks_per_hour", topic.advice ? Json(thousandths(topic.marks_per_hour())) : Json(nullptr)}};
}

} // namespace

Json value_of(const std::vector<TopicDiagnosis>& topics) {
    Json list = Json::array();
    for (const TopicDiagnosis& topic : topics)
        list.push_back(value_of(topic));
    return list;
}

std::string json_of(const std::vector<TopicDiagnosis>& topics) {
    return text_of({{"topics", value_of(topics)}});
}

} // namespace inkturn
