#pragma once

#include "inkturn/base/interval.hpp"
#include "inkturn/grades/boundaries.hpp"
#include "inkturn/paper/marks_difference.hpp"
#include "inkturn/retry/candidate.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// A value for each of the totals that a sitting has, each of which holds the one before.
template <typename Value>
struct ByPhase {
    Value in_time;        ///< what the allowance brought
    Value unaided;        ///< with overtime
    Value with_corrected; ///< with what was earned after reading the mark scheme
};

/// The latest sittings whose marks are held against a boundary set.
struct Basis {
    std::vector<std::shared_ptr<const Paper>> papers; ///< by the day of their latest sittings
    Day day{};                                        ///< of the last of these
    Totals totals;                                    ///< of them together
};

/// What is held against a set: of its subject's papers the one that has as many marks as the set's total,
/// where there are several the one sat last; else all that were sat, together, if their marks add up to the
/// total. Nothing otherwise: marks are never rescaled to another total. Of each paper the latest sitting.
std::optional<Basis> basis_for(const BoundarySet& set, const Candidate& candidate);

/// The next total out of `next` marks, as predict_next() sees it from the own marks of the subject's papers,
/// each in its first sitting: a paper sat again is not unseen. An empty subject takes the papers of all.
std::optional<Prediction> predict_total(const Candidate& candidate, std::string_view subject, Marks next);

/// What marks bring under one set.
struct Worth {
    Marks marks;
    int grades; ///< gained by them
};

/// Where a candidate stands under one boundary set.
struct StandingUnder {
    std::size_t set; ///< position among the sets
    Basis basis;
    ByPhase<GradeResult> reached;
    Worth pace;        ///< what overtime marks would have brought within the allowance
    Worth corrections; ///< what the corrected marks bring on top of own marks
    Prediction prediction;
};

/// A set that fits no total.
struct Unmatched {
    std::size_t set;           ///< position among the sets
    std::vector<Marks> totals; ///< of the subject's papers that were sat, each once, ascending
    Marks together;            ///< of all of them
};

/// One grade over all sets that have it and fit.
struct GradeOutlook {
    std::string grade;
    std::size_t sets;                 ///< 1 or more
    ByPhase<std::size_t> reached;     ///< sets in which it was
    std::size_t hardest;              ///< position of the set where it takes the largest share of the total
    ByPhase<MarksDifference> cushion; ///< above the boundary in that set; below 0 where short of it
};

struct Standing {
    std::vector<StandingUnder> under; ///< in the order of the sets
    std::vector<GradeOutlook> grades; ///< from the top down
    std::vector<Unmatched> unmatched; ///< in the order of the sets
};

/// A candidate's standing under each of the sets, which are all checked. Sets may be of several subjects.
Standing standing(const Candidate& candidate, const std::vector<BoundarySet>& sets);

/// The bands that say something beside all of a candidate's sittings, as shares: those of the sets that are
/// of every one's subject.
std::vector<GradeBand> bands_for(const Candidate& candidate, const std::vector<BoundarySet>& sets);

/// The bands that say something beside totals of one paper: those of the sets of its subject, or of all, that
/// have its marks as their total.
std::vector<GradeBand> bands_for(const Paper& paper, const std::vector<BoundarySet>& sets);

/// A standing under the sets of one subject.
struct SubjectStanding {
    std::string subject;           ///< empty: all subjects
    std::vector<BoundarySet> sets; ///< to which the positions point
    Standing standing;
};

/// What there is to say where a standing is asked for.
struct CandidateStanding {
    std::string candidate;
    std::string subject;                   ///< empty: all subjects
    std::vector<SubjectStanding> subjects; ///< those that have sets, by subject
    /// What the sets take, where all that fit take the same; else the paper sat last. Nothing: none was sat.
    std::optional<Basis> basis;
    std::optional<Prediction> prediction; ///< the next total of as many marks
};

/// The sets to look at where a subject is asked for, or none, by subject and otherwise in their order: where
/// one is, those of other subjects are left out and those of all subjects are taken for it.
std::vector<BoundarySet> sets_for(const std::string& subject, std::vector<BoundarySet> sets);

/// The standing in every subject, or in one alone, under sets_for() it.
CandidateStanding standing_in(const std::string& subject, const Candidate& candidate,
                              const std::vector<BoundarySet>& sets);

} // namespace inkturn
