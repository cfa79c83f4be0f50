#include "inkturn/grades/class_standing.hpp"

#include "inkturn/grades/standing.hpp"
#include "inkturn/retry/latest.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <map>
#include <utility>

namespace inkturn {
namespace {

using Papers = std::vector<std::shared_ptr<const Paper>>;
using Ids = std::vector<std::string>;
using ErrorById = std::map<std::string, Figure>;

/// Of each paper, over the candidates' latest sittings of it.
ErrorById standard_errors(const std::vector<Candidate>& candidates) {
    std::map<std::string, ClassMarks> by_id;
    for (const Candidate& candidate : candidates)
        for (const SittingRecord& record : candidate.sittings)
            if (is_latest_whole(candidate, record))
                by_id.try_emplace(record.paper->id(), *record.paper).first->second.add(record.sitting.parts);
    ErrorById errors;
    for (const auto& [id, marks] : by_id)
        errors.emplace(id, marks.analysis().standard_error);
    return errors;
}

Figure standard_error(const Papers& papers, const ErrorById& errors) {
    double squares = 0;
    for (const auto& paper : papers) {
        const Figure& error = errors.at(paper->id());
        if (!error.has_value())
            return error;
        squares += error.value() * error.value();
    }
    return Figure(std::sqrt(squares));
}

/// A candidate's marks that are compared with a set.
struct Held {
    const std::string* candidate;
    Marks in_time;
    Marks unaided;
};

/// Those whose marks come from the same papers.
struct HeldAlike {
    Papers papers; ///< by id
    std::vector<Held> marks;
};

using HeldByPapers = std::map<Ids, HeldAlike>;

void add(HeldByPapers& held, const Candidate& candidate, Basis basis) {
    std::sort(basis.papers.begin(), basis.papers.end(),
              [](const auto& a, const auto& b) { return a->id() < b->id(); });
    Ids ids;
    for (const auto& paper : basis.papers)
        ids.push_back(paper->id());
    HeldAlike& alike = held[std::move(ids)];
    alike.papers = std::move(basis.papers);
    alike.marks.push_back({&candidate.code, basis.totals.in_time, basis.totals.unaided()});
}

/// Counts by grade, one more than the set has: those below the lowest come last.
void count(const BoundarySet& set, const Held& held, std::vector<ClassCount>& counts) {
    const std::size_t below = set.grades.size();
    ++counts[grade_of(set, held.in_time).grade.value_or(below)].in_time;
    ++counts[grade_of(set, held.unaided).grade.value_or(below)].unaided;
}

std::vector<GradeCount> with_those_above(const std::vector<ClassCount>& counts) {
    std::vector<GradeCount> grades;
    ClassCount sum{0, 0};
    for (const ClassCount& reached : counts) {
        sum.in_time += reached.in_time;
        sum.unaided += reached.unaided;
        grades.push_back({reached, sum});
    }
    return grades;
}

/// Rounding may put a standard error just below a whole number of marks.
constexpr double rounding = 1e-9;

int distance(Marks unaided, const GradeBoundary& boundary) {
    return std::abs(unaided.count() - boundary.mark.count());
}

void add_if_near(const BoundarySet& set, const Held& held, const Figure& error, std::size_t basis,
                 std::vector<NearBoundary>& near) {
    const auto nearest = std::min_element(set.grades.begin(), set.grades.end(),
                                          [&](const GradeBoundary& a, const GradeBoundary& b) {
                                              return distance(held.unaided, a) < distance(held.unaided, b);
                                          });
    if (error.has_value() && distance(held.unaided, *nearest) <= error.value() + rounding)
        near.push_back({*held.candidate, held.unaided, static_cast<std::size_t>(nearest - set.grades.begin()),
                        MarksDifference(held.unaided, nearest->mark), basis});
}

int distance(const NearBoundary& near) {
    return std::abs(near.above.count());
}

bool is_nearer(const NearBoundary& a, const NearBoundary& b) {
    return std::pair(distance(a), a.candidate) < std::pair(distance(b), b.candidate);
}

double grade_width(const BoundarySet& set) {
    if (set.grades.size() < 2)
        return 0;
    const int marks = set.grades.front().mark.count() - set.grades.back().mark.count();
    return static_cast<double>(marks) / static_cast<double>(set.grades.size() - 1);
}

ClassUnder counted_under(BoundarySet set, const HeldByPapers& held, const ErrorById& errors) {
    ClassUnder under{std::move(set), 0, 0, 0, {}, {}, {}, {}};
    under.grade_width = grade_width(under.set);
    std::vector<ClassCount> counts(under.set.grades.size() + 1);
    for (const auto& [ids, alike] : held) {
        const Figure error = standard_error(alike.papers, errors);
        for (const Held& one : alike.marks) {
            count(under.set, one, counts);
            add_if_near(under.set, one, error, under.bases.size(), under.near);
        }
        under.counted += alike.marks.size();
        under.bases.push_back({alike.papers, alike.marks.size(), error});
    }
    under.below = counts.back();
    counts.pop_back();
    under.grades = with_those_above(counts);
    std::sort(under.near.begin(), under.near.end(), is_nearer);
    return under;
}

/// Whether nothing was sat that the set could be for.
bool is_absent(const Candidate& candidate, const std::string& subject) {
    return std::none_of(candidate.sittings.begin(), candidate.sittings.end(),
                        [&](const SittingRecord& record) { return covers(subject, *record.paper); });
}

ClassUnder class_under(BoundarySet set, const std::vector<Candidate>& candidates, const ErrorById& errors) {
    HeldByPapers held;
    std::size_t absent = 0;
    for (const Candidate& candidate : candidates) {
        if (is_absent(candidate, set.subject))
            ++absent;
        if (auto basis = basis_for(set, candidate))
            add(held, candidate, std::move(*basis));
    }
    ClassUnder under = counted_under(std::move(set), held, errors);
    under.absent = absent;
    under.not_fitting = candidates.size() - under.counted - absent;
    return under;
}

/// Those who sat the whole paper.
HeldAlike held_of(const Side& side) {
    HeldAlike alike{{side.paper}, {}};
    for (const SittingOfPaper& sitting : side.sittings)
        if (const Totals sum = totals(*side.paper, sitting.parts); sum.max == side.paper->marks())
            alike.marks.push_back({&sitting.candidate, sum.in_time, sum.unaided()});
    return alike;
}

/// The least distance under any of the sets.
int distance(const NearUnder& near) {
    int least = std::numeric_limits<int>::max();
    for (const auto& under : near.sets)
        if (under)
            least = std::min(least, distance(*under));
    return least;
}

} // namespace

bool ClassUnder::nearly_all_near() const {
    return std::any_of(bases.begin(), bases.end(), [&](const SharedBasis& basis) {
        return grade_width > 0 && basis.standard_error.has_value() &&
               basis.standard_error.value() > grade_width / 2 + rounding;
    });
}

std::vector<std::vector<ClassUnder>> held_alike(const std::vector<ClassUnder>& all) {
    std::vector<std::vector<ClassUnder>> groups;
    for (const ClassUnder& under : all) {
        if (under.counted == 0)
            continue;
        const auto same = std::find_if(groups.begin(), groups.end(), [&](const auto& group) {
            return group.front().set.subject == under.set.subject &&
                   group.front().set.total == under.set.total;
        });
        if (same == groups.end())
            groups.push_back({under});
        else
            same->push_back(under);
    }
    return groups;
}

std::vector<NearUnder> near_boundaries(const std::vector<ClassUnder>& sets) {
    std::map<std::string, NearUnder> by_code;
    for (std::size_t i = 0; i < sets.size(); ++i)
        for (const NearBoundary& near : sets[i].near) {
            NearUnder& one = by_code[near.candidate];
            one.candidate = near.candidate;
            one.unaided = near.unaided;
            one.sets.resize(sets.size());
            one.sets[i] = near;
        }
    std::vector<NearUnder> all;
    for (auto& [code, near] : by_code)
        all.push_back(std::move(near));
    std::stable_sort(all.begin(), all.end(),
                     [](const NearUnder& a, const NearUnder& b) { return distance(a) < distance(b); });
    const bool is_cut = std::any_of(sets.begin(), sets.end(),
                                    [](const ClassUnder& under) { return under.nearly_all_near(); });
    if (is_cut && all.size() > NearUnder::nearest)
        all.resize(NearUnder::nearest);
    return all;
}

std::vector<ClassUnder> paper_standing(const Side& side, const std::vector<BoundarySet>& sets) {
    const ErrorById errors{{side.paper->id(), analyse(side).standard_error}};
    const HeldAlike alike = held_of(side);
    std::vector<ClassUnder> all;
    if (alike.marks.empty())
        return all;
    for (BoundarySet& set : sets_of(*side.paper, sets)) {
        check_boundary_set(set);
        all.push_back(counted_under(std::move(set), {{{side.paper->id()}, alike}}, errors));
        all.back().not_fitting = side.sittings.size() - all.back().counted;
    }
    return all;
}

std::vector<ClassUnder> class_standing(const std::vector<Candidate>& candidates,
                                       const std::vector<BoundarySet>& sets, const std::string& subject) {
    std::for_each(candidates.begin(), candidates.end(), check_whole);
    std::for_each(sets.begin(), sets.end(), check_boundary_set);
    const ErrorById errors = standard_errors(candidates);
    std::vector<ClassUnder> all;
    for (BoundarySet& set : sets_for(subject, sets))
        all.push_back(class_under(std::move(set), candidates, errors));
    return all;
}

} // namespace inkturn
