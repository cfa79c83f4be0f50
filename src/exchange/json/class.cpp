#include "exchange/json/class.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {
namespace {

Json value_of(const ClassCount& count) {
    return {{"in_time", count.in_time}, {"unaided", count.unaided}};
}

Json thousandths_or_null(const Figure& error) {
    return error.has_value() ? Json(thousandths(error.value())) : Json(nullptr);
}

Json value_of(const NearBoundary& near, const ClassUnder& under) {
    const GradeBoundary& boundary = under.set.grades[near.boundary];
    return {{"candidate", near.candidate},
            {"unaided", near.unaided.count()},
            {"grade", boundary.grade},
            {"mark", boundary.mark.count()},
            {"above", near.above.count()},
            {"standard_error", thousandths_or_null(under.bases[near.basis].standard_error)}};
}

Json value_of(const ClassUnder& under) {
    Json grades = Json::array();
    for (std::size_t i = 0; i < under.grades.size(); ++i)
        grades.push_back({{"grade", under.set.grades[i].grade},
                          {"mark", under.set.grades[i].mark.count()},
                          {"reached", value_of(under.grades[i].reached)},
                          {"or_better", value_of(under.grades[i].or_better)}});
    Json basis = Json::array();
    for (const SharedBasis& alike : under.bases)
        basis.push_back({{"papers", ids_of(alike.papers)},
                         {"candidates", alike.candidates},
                         {"standard_error", thousandths_or_null(alike.standard_error)}});
    Json near = Json::array();
    for (const NearBoundary& one : under.near)
        near.push_back(value_of(one, under));
    return {{"set", under.set.name},
            {"subject", null_if_empty(under.set.subject)},
            {"total", under.set.total.count()},
            {"filled", under.set.filled ? Json(name(*under.set.filled)) : Json(nullptr)},
            {"guess", under.set.is_guess},
            {"counted", under.counted},
            {"not_counted", under.not_counted()},
            {"absent", under.absent},
            {"grades", std::move(grades)},
            {"below", value_of(under.below)},
            {"bases", std::move(basis)},
            {"grade_width", under.grade_width > 0 ? Json(thousandths(under.grade_width)) : Json(nullptr)},
            {"nearly_all_near", under.nearly_all_near()},
            {"near", std::move(near)}};
}

Json value_of_awards(const std::vector<ClassAward>& awards) {
    Json list = Json::array();
    for (const ClassAward& award : awards) {
        Json candidates = Json::array();
        for (const CandidateInAward& one : award.candidates) {
            candidates.push_back(value_of(one.standing));
            candidates.back()["candidate"] = one.candidate;
        }
        list.push_back(
            {{"award", award.award.name}, {"without", award.without}, {"candidates", std::move(candidates)}});
    }
    return list;
}

Json name_or_null(const std::optional<std::string>& class_name) {
    return class_name ? Json(*class_name) : Json(nullptr);
}

} // namespace

std::string json_of_class_retries(DaySpan span, const std::vector<CandidateWork>& candidates,
                                  std::size_t without_day, std::size_t not_placed) {
    Json list = Json::array();
    for (const auto& [candidate, within] : candidates)
        list.push_back({{"candidate", candidate},
                        {"planned_seconds", within.planned.count()},
                        {"retries", value_of(within.retries)}});
    return text_of({{"from", iso(span.first)},
                    {"to", iso(span.last)},
                    {"candidates", std::move(list)},
                    {"without_day", without_day},
                    {"not_placed", not_placed}});
}

std::string json_of_class_questions(DaySpan span, std::size_t candidates,
                                    const std::vector<DueQuestion>& questions) {
    Json list = Json::array();
    for (const DueQuestion& due : questions)
        list.push_back({{"paper", due.paper->id()},
                        {"question", due.paper_question().label},
                        {"marks", due.paper_question().marks.count()},
                        {"due", due.candidates.size()},
                        {"planned", due.planned},
                        {"late", due.late},
                        {"missed", due.missed.count()},
                        {"closes", day_or_null(due.closes)},
                        {"candidates", due.candidates}});
    return text_of({{"from", iso(span.first)},
                    {"to", iso(span.last)},
                    {"candidates", candidates},
                    {"questions", std::move(list)}});
}

std::string json_of_class(const std::optional<std::string>& class_name, std::size_t candidates,
                          const std::vector<TopicDiagnosis>& topics, Gain gain) {
    return text_of({{"class", name_or_null(class_name)},
                    {"candidates", candidates},
                    {"gain_percent", gain.percent()},
                    {"topics", value_of(topics)}});
}

std::string json_of_class(const std::optional<std::string>& class_name, const std::string& subject,
                          std::size_t candidates, const std::vector<ClassUnder>& under,
                          const std::vector<ClassAward>& awards) {
    Json sets = Json::array();
    for (const ClassUnder& one : under)
        sets.push_back(value_of(one));
    return text_of({{"class", name_or_null(class_name)},
                    {"subject", null_if_empty(subject)},
                    {"candidates", candidates},
                    {"sets", std::move(sets)},
                    {"awards", value_of_awards(awards)}});
}

} // namespace inkturn
