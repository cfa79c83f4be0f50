#include "inkturn/grades/standing.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/retry/latest.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>

namespace inkturn {
namespace {

std::vector<const SittingRecord*> latest_sittings(const Candidate& candidate, std::string_view subject) {
    std::vector<const SittingRecord*> latest;
    for (const SittingRecord& record : candidate.sittings)
        if (covers(subject, *record.paper) && is_latest_whole(candidate, record))
            latest.push_back(&record);
    return latest;
}

bool is_first(const Candidate& candidate, const SittingRecord& record) {
    const auto first =
        std::find_if(candidate.sittings.begin(), candidate.sittings.end(),
                     [&](const SittingRecord& other) { return other.paper->id() == record.paper->id(); });
    return first->id == record.id;
}

void add(const Candidate& candidate, const SittingRecord& record, Basis& basis) {
    if (!is_first(candidate, record))
        basis.again.push_back(record.paper->id());
    const Totals of_paper = totals(*record.paper, record.sitting.parts);
    basis.papers.push_back(record.paper);
    basis.day = record.sitting.day;
    basis.totals.max += of_paper.max;
    basis.totals.in_time += of_paper.in_time;
    basis.totals.overtime += of_paper.overtime;
    basis.totals.corrected += of_paper.corrected;
}

Basis together(const Candidate& candidate, const std::vector<const SittingRecord*>& records) {
    Basis basis;
    for (const SittingRecord* record : records)
        add(candidate, *record, basis);
    return basis;
}

Unmatched unmatched(std::size_t position, const std::vector<const SittingRecord*>& records) {
    Unmatched none{position, {}, Marks(0)};
    std::set<Marks> totals;
    for (const SittingRecord* record : records) {
        totals.insert(record->paper->marks());
        none.together += record->paper->marks();
    }
    none.totals.assign(totals.begin(), totals.end());
    return none;
}

ByPhase<Marks> marks_by_phase(const Totals& totals) {
    return {totals.in_time, totals.unaided(), totals.unaided() + totals.corrected};
}

/// Of one paper: several together are no next paper.
std::optional<Prediction> predicted(const Candidate& candidate, std::string_view subject, const Basis& basis,
                                    const NextPaper& next) {
    if (basis.papers.size() > 1)
        return std::nullopt;
    const Marks total = basis.totals.max;
    const auto of_subject = predictable_subject(candidate, subject);
    if (!next || !of_subject)
        return std::nullopt;
    const auto share = next(*of_subject);
    return share ? std::optional(prediction(*share, total)) : std::nullopt;
}

StandingUnder standing_under(const BoundarySet& set, std::size_t position, Basis basis,
                             const Candidate& candidate, const NextPaper& next) {
    const ByPhase<Marks> marks = marks_by_phase(basis.totals);
    const ByPhase<GradeResult> reached{grade_of(set, marks.in_time), grade_of(set, marks.unaided),
                                       grade_of(set, marks.with_corrected)};
    const auto prediction = predicted(candidate, set.subject, basis, next);
    return {
        position,
        std::move(basis),
        reached,
        {marks.unaided - marks.in_time, grades_gained(set, reached.in_time, reached.unaided)},
        {marks.with_corrected - marks.unaided, grades_gained(set, reached.unaided, reached.with_corrected)},
        prediction};
}

/// The sets' grades in one order, from the top down: a grade that only a later set has comes right below the
/// one above it there.
std::vector<std::string> grades_of(const std::vector<StandingUnder>& under,
                                   const std::vector<BoundarySet>& sets) {
    std::vector<std::string> grades;
    for (const StandingUnder& one : under) {
        auto place = grades.begin();
        for (const GradeBoundary& boundary : sets[one.set].grades) {
            const auto found = std::find(grades.begin(), grades.end(), boundary.grade);
            place = 1 + (found == grades.end() ? grades.insert(place, boundary.grade) : found);
        }
    }
    return grades;
}

/// Whether the first mark is the larger share of its total.
bool is_harder(Marks mark, Marks total, Marks other_mark, Marks other_total) {
    return std::int64_t{mark.count()} * other_total.count() >
           std::int64_t{other_mark.count()} * total.count();
}

void count(MarksDifference cushion, std::size_t& reached) {
    if (cushion.count() >= 0)
        ++reached;
}

/// Whether a set that somebody set has the grade.
bool any_past_set(const std::string& grade, const std::vector<StandingUnder>& under,
                  const std::vector<BoundarySet>& sets) {
    return std::any_of(under.begin(), under.end(), [&](const StandingUnder& one) {
        return !sets[one.set].is_guess && find_boundary(sets[one.set], grade);
    });
}

GradeOutlook outlook(const std::string& grade, const std::vector<StandingUnder>& under,
                     const std::vector<BoundarySet>& sets) {
    GradeOutlook all{grade, 0, {0, 0, 0}, 0, {}};
    std::optional<Marks> hardest;
    const bool no_guesses = any_past_set(grade, under, sets);
    for (const StandingUnder& one : under) {
        const BoundarySet& set = sets[one.set];
        const auto mark = find_boundary(set, grade);
        if (!mark || (no_guesses && set.is_guess))
            continue;
        const ByPhase<Marks> marks = marks_by_phase(one.basis.totals);
        const ByPhase<MarksDifference> cushion{
            {marks.in_time, *mark}, {marks.unaided, *mark}, {marks.with_corrected, *mark}};
        ++all.sets;
        count(cushion.in_time, all.reached.in_time);
        count(cushion.unaided, all.reached.unaided);
        count(cushion.with_corrected, all.reached.with_corrected);
        if (!hardest || is_harder(*mark, set.total, *hardest, sets[all.hardest].total)) {
            hardest = mark;
            all.hardest = one.set;
            all.cushion = cushion;
        }
    }
    return all;
}

std::optional<Basis> basis_of(const Candidate& candidate, const std::vector<const SittingRecord*>& latest,
                              Marks total) {
    const auto last_alone = [&](bool unseen) {
        return std::find_if(latest.rbegin(), latest.rend(), [&](const SittingRecord* record) {
            return record->paper->marks() == total && is_first(candidate, *record) == unseen;
        });
    };
    auto alone = last_alone(true);
    if (alone == latest.rend())
        alone = last_alone(false);
    Basis basis =
        together(candidate, alone == latest.rend() ? latest : std::vector<const SittingRecord*>{*alone});
    if (basis.totals.max != total)
        return std::nullopt;
    return basis;
}

std::optional<Basis> paper_sat_last(const Candidate& candidate, std::string_view subject) {
    const auto latest = latest_sittings(candidate, subject);
    if (latest.empty())
        return std::nullopt;
    return together(candidate, {latest.back()});
}

/// All that a set's basis depends on.
struct SubjectTotal {
    std::string subject;
    Marks total;
};

/// The subject and total of all sets that fit; nothing if they differ or none fits.
std::optional<SubjectTotal> only_total(const std::vector<SubjectStanding>& subjects) {
    std::optional<SubjectTotal> only;
    for (const SubjectStanding& one : subjects)
        for (const StandingUnder& under : one.standing.under) {
            const Marks total = under.basis.totals.max;
            if (only && (only->subject != one.subject || only->total != total))
                return std::nullopt;
            only = {one.subject, total};
        }
    return only;
}

} // namespace

bool covers(std::string_view subject, const Paper& paper) {
    return subject.empty() || subject == paper.subject();
}

std::optional<Basis> basis_for(const BoundarySet& set, const Candidate& candidate) {
    check_whole(candidate);
    return basis_of(candidate, latest_sittings(candidate, set.subject), set.total);
}

Standing standing(const Candidate& candidate, const std::vector<BoundarySet>& sets, const NextPaper& next) {
    check_whole(candidate);
    std::for_each(sets.begin(), sets.end(), check_boundary_set);
    Standing all;
    for (std::size_t i = 0; i < sets.size(); ++i) {
        const auto latest = latest_sittings(candidate, sets[i].subject);
        if (auto basis = basis_of(candidate, latest, sets[i].total))
            all.under.push_back(standing_under(sets[i], i, std::move(*basis), candidate, next));
        else
            all.unmatched.push_back(unmatched(i, latest));
    }
    for (const std::string& grade : grades_of(all.under, sets))
        all.grades.push_back(outlook(grade, all.under, sets));
    return all;
}

std::vector<BoundarySet> sets_for(const std::string& subject, std::vector<BoundarySet> sets) {
    std::vector<BoundarySet> result;
    for (BoundarySet& set : sets) {
        if (set.subject.empty())
            set.subject = subject;
        if (subject.empty() || set.subject == subject)
            result.push_back(std::move(set));
    }
    std::stable_sort(result.begin(), result.end(),
                     [](const BoundarySet& a, const BoundarySet& b) { return a.subject < b.subject; });
    return result;
}

CandidateStanding standing_in(const std::string& subject, const Candidate& candidate,
                              const std::vector<BoundarySet>& sets, const NextPaper& next) {
    std::map<std::string, std::vector<BoundarySet>> by_subject;
    for (BoundarySet& set : sets_for(subject, sets))
        by_subject[set.subject].push_back(std::move(set));
    CandidateStanding result{candidate.code, subject, {}, {}, {}};
    for (const SittingRecord& record : candidate.sittings)
        result.in_part += covers(subject, *record.paper) && !is_whole(*record.paper, record.sitting.parts);
    for (auto& [name, of_subject] : by_subject) {
        Standing under = standing(candidate, of_subject, next);
        result.subjects.push_back({name, std::move(of_subject), std::move(under)});
    }

    const auto only = only_total(result.subjects);
    result.basis = only ? basis_for({"", only->subject, only->total, {}}, candidate)
                        : paper_sat_last(candidate, subject);
    if (result.basis)
        result.prediction = predicted(candidate, only ? only->subject : subject, *result.basis, next);
    return result;
}

std::vector<GradeBand> bands_for(const Candidate& candidate, const std::vector<BoundarySet>& sets) {
    check_whole(candidate);
    std::vector<BoundarySet> fitting;
    for (const BoundarySet& set : sets)
        if (std::all_of(candidate.sittings.begin(), candidate.sittings.end(),
                        [&](const SittingRecord& record) { return covers(set.subject, *record.paper); }))
            fitting.push_back(set);
    return grade_bands(fitting);
}

std::vector<BoundarySet> sets_of(const Paper& paper, const std::vector<BoundarySet>& sets) {
    std::vector<BoundarySet> fitting;
    for (const BoundarySet& set : sets)
        if (set.total == paper.marks() && covers(set.subject, paper))
            fitting.push_back(set);
    return fitting;
}

std::vector<GradeBand> bands_for(const Paper& paper, const std::vector<BoundarySet>& sets) {
    return grade_bands(sets_of(paper, sets));
}

} // namespace inkturn
