#include "exchange/json/lesson.hpp"

#include "exchange/json/value.hpp"
#include "inkturn/base/time.hpp"

#include <utility>

namespace inkturn {
namespace {

Json start_or_null(std::optional<Seconds> start) {
    return start ? Json(time_of_day_text(*start)) : Json(nullptr);
}

Json value_of(const Lesson& lesson) {
    return {{"lesson", lesson.id},
            {"date", iso(lesson.day)},
            {"start", start_or_null(lesson.start)},
            {"duration_seconds", lesson.duration.count()},
            {"subject", null_if_empty(lesson.subject)},
            {"topics", lesson.topics},
            {"places", lesson.places},
            {"free_places", free_places(lesson)},
            {"order", name(lesson.order)},
            {"asked", lesson.asked.size()}};
}

Json value_of(const PlaceAsked& asked, const std::optional<Marks>& lost, const Elsewhere& elsewhere) {
    const auto other = elsewhere.find(asked.candidate);
    const auto elsewhere_in = [&](bool is_coming) {
        const bool is_there = other != elsewhere.end() && comes(other->second.state) == is_coming;
        return is_there ? Json(other->second.lesson) : Json(nullptr);
    };
    return {{"candidate", asked.candidate},   {"asked_at", iso(asked.at)},
            {"topics", asked.topics},         {"remark", null_if_empty(asked.remark)},
            {"state", name(asked.state)},     {"lost", count_or_null(lost)},
            {"comes_to", elsewhere_in(true)}, {"offered_in", elsewhere_in(false)}};
}

} // namespace

Json value_of(const LessonPlace& lesson) {
    return {{"lesson", lesson.lesson},
            {"date", iso(lesson.day)},
            {"start", start_or_null(lesson.start)},
            {"duration_seconds", lesson.duration.count()},
            {"subject", null_if_empty(lesson.subject)},
            {"topics", lesson.topics},
            {"state", name(lesson.state)}};
}

std::string json_of(const std::vector<Lesson>& lessons) {
    Json list = Json::array();
    for (const Lesson& lesson : lessons)
        list.push_back(value_of(lesson));
    return text_of({{"lessons", std::move(list)}});
}

std::string json_of(const Lesson& lesson, const LostByCandidate& lost, const Elsewhere& elsewhere) {
    Json json = value_of(lesson);
    Json asked = Json::array();
    for (const PlaceAsked& one : lesson.asked) {
        const auto found = lost.find(one.candidate);
        asked.push_back(value_of(one, found == lost.end() ? std::nullopt : found->second, elsewhere));
    }
    json["asked"] = std::move(asked);
    json["next_in_line"] = next_in_line(lesson, lost, elsewhere);
    return text_of(json);
}

std::string json_of(const RunSheet& sheet) {
    Json shared = Json::array();
    for (const SharedRetry& one : sheet.shared)
        shared.push_back({{"paper", one.retry.paper->id()},
                          {"question", one.retry.id.question},
                          {"allowance_seconds", one.retry.allowance.count()},
                          {"candidates", one.candidates}});
    Json fresh = Json::array();
    for (const Drawable& question : sheet.fresh)
        fresh.push_back({{"paper", question.paper->id()},
                         {"question", question.paper_question().label},
                         {"topic", question.topic},
                         {"allowance_seconds", question.allowance.count()}});
    Json bring = Json::array();
    for (const ToBring& one : sheet.bring) {
        Json papers = Json::array();
        for (const ToBring::OfPaper& of_paper : one.papers)
            papers.push_back({{"paper", of_paper.paper->id()}, {"questions", of_paper.questions}});
        bring.push_back({{"candidate", one.asked.candidate}, {"papers", std::move(papers)}});
    }
    Json json = value_of(sheet.lesson);
    json["confirmed"] = sheet.confirmed;
    json["shared_retries"] = std::move(shared);
    json["retries_of_one"] = sheet.of_one;
    json["fresh"] = std::move(fresh);
    json["bring"] = std::move(bring);
    return text_of(json);
}

} // namespace inkturn
