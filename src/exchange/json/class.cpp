#include "exchange/json/json.hpp"

namespace inkturn {
namespace {

Json json_of(const ClassCount& count) {
    return {{"in_time", count.in_time}, {"own", count.own}};
}

Json ids_of(const std::vector<std::shared_ptr<const Paper>>& papers) {
    Json ids = Json::array();
    for (const auto& paper : papers)
        ids.push_back(paper->id());
    return ids;
}

Json json_of_error(const Figure& error) {
    return error.has_value() ? Json(thousandths(error.value())) : Json(nullptr);
}

Json json_of(const NearBoundary& near, const ClassUnder& under) {
    const GradeBoundary& boundary = under.set.grades[near.boundary];
    return {{"candidate", near.candidate}, {"own", near.own.count()},
            {"grade", boundary.grade},     {"mark", boundary.mark.count()},
            {"above", near.above.count()}, {"sem", json_of_error(under.taken[near.taken].standard_error)}};
}

Json json_of(const ClassUnder& under) {
    Json grades = Json::array();
    for (std::size_t i = 0; i < under.grades.size(); ++i)
        grades.push_back({{"grade", under.set.grades[i].grade},
                          {"mark", under.set.grades[i].mark.count()},
                          {"reached", json_of(under.grades[i].reached)},
                          {"or_better", json_of(under.grades[i].or_better)}});
    Json taken = Json::array();
    for (const TakenAlike& alike : under.taken)
        taken.push_back({{"papers", ids_of(alike.papers)},
                         {"candidates", alike.candidates},
                         {"sem", json_of_error(alike.standard_error)}});
    Json near = Json::array();
    for (const NearBoundary& one : under.near)
        near.push_back(json_of(one, under));
    return {{"set", under.set.name},
            {"subject", under.set.subject.empty() ? Json(nullptr) : Json(under.set.subject)},
            {"total", under.set.total.count()},
            {"counted", under.counted},
            {"not_counted", under.not_counted},
            {"grades", std::move(grades)},
            {"below", json_of(under.below)},
            {"taken", std::move(taken)},
            {"near", std::move(near)}};
}

Json class_json(const std::optional<std::string>& class_name) {
    return class_name ? Json(*class_name) : Json(nullptr);
}

double marks_of(Marks tenths) {
    return tenths.count() / 10.0;
}

} // namespace

Json json_of_class(const std::optional<std::string>& class_name, std::size_t candidates,
                   const std::vector<TopicDiagnosis>& topics) {
    return {
        {"class", class_json(class_name)}, {"candidates", candidates}, {"topics", json_of(topics)["topics"]}};
}

Json json_of_class(const std::optional<std::string>& class_name, const std::string& subject,
                   std::size_t candidates, const std::vector<ClassUnder>& under) {
    Json sets = Json::array();
    for (const ClassUnder& one : under)
        sets.push_back(json_of(one));
    return {{"class", class_json(class_name)},
            {"subject", subject.empty() ? Json(nullptr) : Json(subject)},
            {"candidates", candidates},
            {"sets", std::move(sets)}};
}

Json json_of(const SeatPlan& plan, const LostMarks& lost, Weigh weigh) {
    const std::vector<std::vector<SeatLost>> by_seat = lost_by_seat(plan, lost);
    Json classes = Json::array();
    for (std::size_t i = 0; i < plan.classes.size(); ++i) {
        Json topics = Json::array();
        for (const std::size_t topic : plan.classes[i].topics)
            topics.push_back(lost.topics[topic]);
        Json seats = Json::array();
        for (std::size_t j = 0; j < by_seat[i].size(); ++j)
            seats.push_back({{"candidate", lost.candidates[plan.classes[i].seats[j].candidate]},
                             {"marks", by_seat[i][j].marks.count()},
                             {"in_an_hour", marks_of(by_seat[i][j].tenths_in_an_hour)}});
        classes.push_back({{"topics", std::move(topics)}, {"seats", std::move(seats)}});
    }
    const SeatLost all = lost_by_all(by_seat);
    return {{"weigh", name(weigh)},
            {"classes", std::move(classes)},
            {"marks", all.marks.count()},
            {"in_an_hour", marks_of(all.tenths_in_an_hour)},
            {"bound", weigh == Weigh::hour ? Json(marks_of(plan.bound)) : Json(plan.bound.count())},
            {"left_out", left_out_of(plan, lost, weigh)}};
}

} // namespace inkturn
