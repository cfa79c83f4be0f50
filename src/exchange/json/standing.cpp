#include "exchange/json/json.hpp"

namespace inkturn {
namespace {

Json json_of(const std::optional<Marks>& marks) {
    return marks ? Json(marks->count()) : Json(nullptr);
}

Json null_if_empty(const std::string& text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

Json json_of(const Totals& sum) {
    return {{"max", sum.max.count()},
            {"in_time", sum.in_time.count()},
            {"own", sum.own().count()},
            {"corrected", (sum.own() + sum.corrected).count()}};
}

Json json_of(const Prediction& foreseen) {
    Json low = nullptr;
    Json high = nullptr;
    if (foreseen.range) {
        low = foreseen.range->low.count();
        high = foreseen.range->high.count();
    }
    return {{"low", low}, {"mid", foreseen.middle.count()}, {"high", high}};
}

Json json_of(const BoundarySet& set, const GradeReached& reached) {
    return {{"grade", reached.grade ? Json(set.grades[*reached.grade].grade) : Json(nullptr)},
            {"clear", json_of(reached.clear)},
            {"short", json_of(reached.short_by)}};
}

Json json_of(const Worth& worth) {
    return {{"marks", worth.marks.count()}, {"grades", worth.grades}};
}

Json json_of(const StandingUnder& under, const BoundarySet& set) {
    Json papers = Json::array();
    for (const auto& paper : under.taken.papers)
        papers.push_back(paper->id());
    return {{"set", set.name},
            {"subject", null_if_empty(set.subject)},
            {"total", set.total.count()},
            {"papers", std::move(papers)},
            {"date", iso(under.taken.day)},
            {"totals", json_of(under.taken.totals)},
            {"in_time", json_of(set, under.reached.in_time)},
            {"own", json_of(set, under.reached.own)},
            {"corrected", json_of(set, under.reached.with_corrected)},
            {"foreseen", json_of(under.foreseen)},
            {"worth", {{"pace", json_of(under.pace)}, {"corrections", json_of(under.corrections)}}}};
}

Json json_of(const GradeOutlook& outlook, const SubjectStanding& in) {
    return {{"grade", outlook.grade},
            {"subject", null_if_empty(in.subject)},
            {"sets", outlook.sets},
            {"reached",
             {{"in_time", outlook.reached.in_time},
              {"own", outlook.reached.own},
              {"corrected", outlook.reached.with_corrected}}},
            {"hardest", in.sets[outlook.hardest].name},
            {"cushion",
             {{"in_time", outlook.cushion.in_time.count()},
              {"own", outlook.cushion.own.count()},
              {"corrected", outlook.cushion.with_corrected.count()}}}};
}

Json json_of(const Unmatched& unmatched, const BoundarySet& set) {
    Json totals = Json::array();
    for (const Marks total : unmatched.totals)
        totals.push_back(total.count());
    return {{"set", set.name},
            {"subject", null_if_empty(set.subject)},
            {"total", set.total.count()},
            {"totals", std::move(totals)},
            {"together", unmatched.together.count()}};
}

} // namespace

Json json_of(const std::vector<BoundarySetOnFile>& sets) {
    Json list = Json::array();
    for (const auto& [id, set] : sets)
        list.push_back({{"id", static_cast<std::int64_t>(id)},
                        {"set", set.name},
                        {"subject", null_if_empty(set.subject)},
                        {"total", set.total.count()},
                        {"grades", json_of_grades(set.grades)["grades"]}});
    return {{"sets", std::move(list)}};
}

Json json_of_grades(const std::vector<GradeBoundary>& grades) {
    Json list = Json::array();
    for (const GradeBoundary& boundary : grades)
        list.push_back({{"grade", boundary.grade}, {"mark", boundary.mark.count()}});
    return {{"grades", std::move(list)}};
}

Json json_of_scaled(const BoundarySet& set, const ScalePoint& mark, std::optional<Marks> uniform_total) {
    return {{"set", null_if_empty(set.name)},  {"subject", null_if_empty(set.subject)},
            {"total", set.total.count()},      {"raw", mark.raw.count()},
            {"uniform", mark.uniform.count()}, {"uniform_total", json_of(uniform_total)}};
}

Json json_of(const StandingAsked& asked) {
    Json sets = Json::array();
    Json grades = Json::array();
    Json unmatched = Json::array();
    for (const SubjectStanding& in : asked.subjects) {
        for (const StandingUnder& under : in.standing.under)
            sets.push_back(json_of(under, in.sets[under.set]));
        for (const GradeOutlook& outlook : in.standing.grades)
            grades.push_back(json_of(outlook, in));
        for (const Unmatched& one : in.standing.unmatched)
            unmatched.push_back(json_of(one, in.sets[one.set]));
    }
    return {{"candidate", asked.candidate},
            {"subject", null_if_empty(asked.subject)},
            {"totals", asked.taken ? json_of(asked.taken->totals) : Json(nullptr)},
            {"foreseen", asked.foreseen ? json_of(*asked.foreseen) : Json(nullptr)},
            {"sets", std::move(sets)},
            {"grades", std::move(grades)},
            {"unmatched", std::move(unmatched)}};
}

} // namespace inkturn
