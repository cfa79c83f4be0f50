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

Json expected(const TopicOutlook& outlook) {
    return {{"share", thousandths(outlook.share)},
            {"low", thousandths(outlook.range.low)},
            {"high", thousandths(outlook.range.high)}};
}

Json again(const TopicDiagnosis& topic) {
    if (topic.again_marks == Marks(0))
        return nullptr;
    return {{"marks", topic.again_marks.count()}, {"unaided", topic.again_unaided.count()}};
}

Json value_of(const TopicDiagnosis& topic) {
    const auto of_outlook = [&](double TopicOutlook::*figure) {
        return topic.outlook ? Json(thousandths(*topic.outlook.*figure)) : Json(nullptr);
    };
    Json value{{"topic", topic.topic},
               {"subject", null_if_empty(topic.subject)},
               {"parts", topic.parts},
               {"marks", topic.marks.count()},
               {"in_time", topic.in_time.count()},
               {"unaided", topic.unaided().count()},
               {"again", again(topic)},
               {"expected", topic.outlook ? expected(*topic.outlook) : Json(nullptr)},
               {"below", of_outlook(&TopicOutlook::below)},
               {"marks_a_paper", of_outlook(&TopicOutlook::marks_a_paper)},
               {"won_back", of_outlook(&TopicOutlook::won_back)},
               {"advice", topic.advice ? Json(name(topic.advice->what)) : Json(nullptr)},
               {"sure", topic.advice ? Json(topic.advice->sure) : Json(nullptr)},
               {"plain",
                {{"unaided_share", share(topic.unaided(), topic.marks)},
                 {"low", thousandths(topic.unaided_interval.low)},
                 {"high", thousandths(topic.unaided_interval.high)}}},
               {"overtime_share", topic.overtime_share()},
               {"lost", value_of(topic.lost)},
               {"lost_codes", lost_by_code(topic)}};
    for (const Day day : topic.relearned)
        value["relearned"].push_back(iso(day));
    return value;
}

} // namespace

Json value_of(const std::vector<TopicDiagnosis>& topics) {
    Json list = Json::array();
    for (const TopicDiagnosis& topic : topics)
        list.push_back(value_of(topic));
    return list;
}

std::string json_of(const std::vector<TopicDiagnosis>& topics, std::size_t candidates, Gain gain) {
    return text_of(
        {{"candidates", candidates}, {"gain_percent", gain.percent()}, {"topics", value_of(topics)}});
}

} // namespace inkturn
