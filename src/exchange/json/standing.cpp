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
            {"totals", std::move(totals)},
            {"together", unmatched.together.count()}};
}

} // namespace

std::string json_of(const CandidateStanding& standing) {
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
                    {"unmatched", std::move(unmatched)}});
}

} // namespace inkturn
