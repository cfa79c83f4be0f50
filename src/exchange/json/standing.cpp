#include "exchange/json/standing.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {
namespace {

Json standing_totals(const Totals& sum) {
    return {{"max", sum.max.count()},
            {"in_time", sum.in_time.count()},
            {"unaided", sum.unaided().count()},
            {"corrected", sum.corrected.count()}};
}

Json value_of(const std::optional<Prediction>& prediction) {
    if (!prediction)
        return nullptr;
    return {{"total", prediction->total.count()},     {"in_time", prediction->middle.count()},
            {"low_50", prediction->half.low.count()}, {"high_50", prediction->half.high.count()},
            {"low_90", prediction->most.low.count()}, {"high_90", prediction->most.high.count()}};
}

Json filled_or_null(const BoundarySet& set) {
    return set.filled ? Json(name(*set.filled)) : Json(nullptr);
}

Json value_of(const BoundarySet& set, const GradeResult& reached) {
    return {{"grade", reached.grade ? Json(set.grades[*reached.grade].grade) : Json(nullptr)},
            {"clear", count_or_null(reached.clear)},
            {"short", count_or_null(reached.short_by)}};
}

Json value_of(const Worth& worth) {
    return {{"marks", worth.marks.count()}, {"grades", worth.grades}};
}

Json value_of(const StandingUnder& under, const BoundarySet& set) {
    return {{"set", set.name},
            {"subject", null_if_empty(set.subject)},
            {"total", set.total.count()},
            {"filled", filled_or_null(set)},
            {"guess", set.is_guess},
            {"papers", ids_of(under.basis.papers)},
            {"again", under.basis.again},
            {"date", iso(under.basis.day)},
            {"totals", standing_totals(under.basis.totals)},
            {"in_time", value_of(set, under.reached.in_time)},
            {"unaided", value_of(set, under.reached.unaided)},
            {"with_corrected", value_of(set, under.reached.with_corrected)},
            {"foreseen", value_of(under.prediction)},
            {"worth", {{"pace", value_of(under.pace)}, {"corrections", value_of(under.corrections)}}}};
}

Json value_of(const GradeOutlook& outlook, const SubjectStanding& in) {
    return {{"grade", outlook.grade},
            {"subject", null_if_empty(in.subject)},
            {"sets", outlook.sets},
            {"reached",
             {{"in_time", outlook.reached.in_time},
              {"unaided", outlook.reached.unaided},
              {"with_corrected", outlook.reached.with_corrected}}},
            {"hardest", in.sets[outlook.hardest].name},
            {"hardest_is_guess", in.sets[outlook.hardest].is_guess},
            {"cushion",
             {{"in_time", outlook.cushion.in_time.count()},
              {"unaided", outlook.cushion.unaided.count()},
              {"with_corrected", outlook.cushion.with_corrected.count()}}}};
}

Json value_of(const Unmatched& unmatched, const BoundarySet& set) {
    Json totals = Json::array();
    for (const Marks total : unmatched.totals)
        totals.push_back(total.count());
    return {{"set", set.name},
            {"subject", null_if_empty(set.subject)},
            {"total", set.total.count()},
            {"guess", set.is_guess},
            {"totals", std::move(totals)},
            {"together", unmatched.together.count()}};
}

Json phases_of(const Totals& sum) {
    return {{"in_time", sum.in_time.count()},
            {"unaided", sum.unaided().count()},
            {"with_corrected", (sum.unaided() + sum.corrected).count()}};
}

Json value_of(const Component& component, const ComponentBasis& basis) {
    return {{"component", component.name},
            {"marks", component.marks.count()},
            {"weight", to_text(component.weight)},
            {"uniform_total", count_or_null(component.uniform)},
            {"paper", basis.sitting ? Json(basis.sitting->paper->id()) : Json(nullptr)},
            {"date", basis.sitting ? Json(iso(basis.sitting->day)) : Json(nullptr)},
            {"earned", basis.sitting ? phases_of(basis.sitting->totals) : Json(nullptr)},
            {"earlier", basis.earlier},
            {"other_marks", basis.out_of_others},
            {"foreseen", value_of(basis.foreseen)}};
}

Json value_of(const BoundarySet& set, const MarksReached& reached) {
    return {{"low", reached.low.count()},
            {"high", reached.high.count()},
            {"low_grade", value_of(set, reached.low_grade)},
            {"high_grade", value_of(set, reached.high_grade)}};
}

Json value_of(const Gap& gap, const Award& award) {
    Json names = Json::array();
    for (const std::size_t position : gap.components)
        names.push_back(award.components[position].name);
    return {{"components", std::move(names)}, {"count", gap.count}, {"max", rounded(gap.maximum).count()}};
}

Json value_of(const AwardUnder& under, const AwardStanding& standing) {
    const BoundarySet& set = standing.sets[under.set];
    Json places = Json::array();
    for (std::size_t i = 0; i < under.components.size(); ++i)
        places.push_back({{"component", standing.award.components[i].name},
                          {"place", name(under.components[i].place)},
                          {"brings", rounded(under.components[i].brings.unaided).count()}});
    Json gaps = Json::array();
    for (const Gap& gap : under.gaps)
        gaps.push_back(value_of(gap, standing.award));
    return {{"set", set.name},
            {"series", null_if_empty(under.series)},
            {"total", set.total.count()},
            {"filled", filled_or_null(set)},
            {"guess", under.is_guess},
            {"components", std::move(places)},
            {"gaps", std::move(gaps)},
            {"in_time", value_of(set, under.reached.in_time)},
            {"unaided", value_of(set, under.reached.unaided)},
            {"with_corrected", value_of(set, under.reached.with_corrected)}};
}

Json value_of(const ComponentGrade& grade, const AwardStanding& standing) {
    const BoundarySet& set = standing.sets[grade.set];
    Json json{{"component", standing.award.components[grade.component].name},
              {"set", set.name},
              {"guess", set.is_guess},
              {"in_time", value_of(set, grade.reached.in_time)},
              {"unaided", value_of(set, grade.reached.unaided)},
              {"with_corrected", value_of(set, grade.reached.with_corrected)}};
    if (grade.uniform)
        json["uniform"] = {{"in_time", grade.uniform->in_time.count()},
                           {"unaided", grade.uniform->unaided.count()},
                           {"with_corrected", grade.uniform->with_corrected.count()}};
    return json;
}

} // namespace

Json value_of(const AwardStanding& standing) {
    Json components = Json::array();
    for (std::size_t i = 0; i < standing.components.size(); ++i)
        components.push_back(value_of(standing.award.components[i], standing.components[i]));
    Json sets = Json::array();
    for (const AwardUnder& under : standing.under)
        sets.push_back(value_of(under, standing));
    Json grades = Json::array();
    for (const ComponentGrade& grade : standing.grades)
        grades.push_back(value_of(grade, standing));
    return {{"award", standing.award.name},
            {"subject", null_if_empty(standing.award.subject)},
            {"total", standing.award.total().count()},
            {"components", std::move(components)},
            {"sets", std::move(sets)},
            {"component_grades", std::move(grades)}};
}

namespace {

Json value_of(const std::vector<AwardStanding>& awards) {
    Json list = Json::array();
    for (const AwardStanding& standing : awards)
        list.push_back(value_of(standing));
    return list;
}

/// `award` is null where the set is of papers.
Json value_of(const AimUnder& aim, const BoundarySet& set, const Award* award) {
    Json needs = Json::array();
    for (const ComponentNeed& need : aim.needs)
        needs.push_back({{"component", award->components[need.component].name},
                         {"raw", count_or_null(need.raw)},
                         {"in_award", need.in_award.count()}});
    return {{"award", award == nullptr ? Json(nullptr) : Json(award->name)},
            {"set", set.name},
            {"series", null_if_empty(aim.series)},
            {"subject", null_if_empty(set.subject)},
            {"guess", aim.is_guess},
            {"total", set.total.count()},
            {"wanted", aim.wanted.count()},
            {"in_time", aim.in_time.count()},
            {"above", aim.above.count()},
            {"reach", name(aim.reach)},
            {"needs", std::move(needs)}};
}

Json value_of(const AimOutlook& outlook, const CandidateStanding& standing,
              const std::vector<AwardStanding>& awards) {
    Json under = Json::array();
    for (std::size_t i = 0; i < outlook.subjects.size(); ++i)
        for (const AimUnder& aim : outlook.subjects[i])
            under.push_back(value_of(aim, standing.subjects[i].sets[aim.set], nullptr));
    for (std::size_t i = 0; i < outlook.awards.size(); ++i)
        for (const AimUnder& aim : outlook.awards[i])
            under.push_back(value_of(aim, awards[i].sets[aim.set], &awards[i].award));
    Json nearest = Json::array();
    for (const TopicDiagnosis& topic : outlook.nearest)
        nearest.push_back({{"subject", null_if_empty(topic.subject)},
                           {"topic", topic.topic},
                           {"expected", thousandths(topic.outlook->share)},
                           {"marks_a_paper", thousandths(topic.outlook->marks_a_paper)},
                           {"won_back", thousandths(topic.outlook->won_back)}});
    return {{"grade", outlook.aim.grade},
            {"clear", outlook.aim.clear.count()},
            {"sets", std::move(under)},
            {"nearest", std::move(nearest)}};
}

} // namespace

std::string json_of(const CandidateStanding& standing, const std::vector<AwardStanding>& awards,
                    const std::optional<AimOutlook>& aim) {
    Json sets = Json::array();
    Json grades = Json::array();
    Json unmatched = Json::array();
    for (const SubjectStanding& in : standing.subjects) {
        for (const StandingUnder& under : in.standing.under)
            sets.push_back(value_of(under, in.sets[under.set]));
        for (const GradeOutlook& outlook : in.standing.grades)
            grades.push_back(value_of(outlook, in));
        for (const Unmatched& one : in.standing.unmatched)
            unmatched.push_back(value_of(one, in.sets[one.set]));
    }
    return text_of({{"candidate", standing.candidate},
                    {"subject", null_if_empty(standing.subject)},
                    {"totals", standing.basis ? standing_totals(standing.basis->totals) : Json(nullptr)},
                    {"sittings_in_part", standing.in_part},
                    {"foreseen", value_of(standing.prediction)},
                    {"sets", std::move(sets)},
                    {"grades", std::move(grades)},
                    {"unmatched", std::move(unmatched)},
                    {"awards", value_of(awards)},
                    {"aim", aim ? value_of(*aim, standing, awards) : Json(nullptr)}});
}

} // namespace inkturn
