#pragma once

#include "inkturn/grades/boundaries.hpp"
#include "inkturn/grades/prediction.hpp"
#include "inkturn/paper/marks_difference.hpp"
#include "inkturn/retry/candidate.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// A value for each of the totals that a sitting has, each of which includes the one before.
template <typename Value>
struct ByPhase {
    Value in_time;        ///< what the allowance brought
    Value unaided;        ///< with overtime
    Value with_corrected; ///< with what was earned after reading the mark scheme
};

/// The latest sittings whose marks are compared with a boundary set.
struct Basis {
    std::vector<std::shared_ptr<const Paper>> papers; ///< by the day of their latest sittings
    std::vector<std::string> again;                   ///< ids of those that had been sat before
    Day day{};                                        ///< of the last of these
    Totals totals;                                    ///< of them together
};

/// What is compared with a set: the paper of its subject with as many marks as the set's total, if there are
/// several the one sat last of those that were sat once, or else of those sat again; else all that were sat,
/// together, if their marks add up to the total. Nothing otherwise: marks are never rescaled to another
/// total. Each paper's latest
/// sitting of all that it asks for counts.
std::optional<Basis> basis_for(const BoundarySet& set, const Candidate& candidate);

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
    Worth pace;                           ///< what overtime marks would have brought within the allowance
    Worth corrections;                    ///< what the corrected marks bring on top of unaided marks
    std::optional<Prediction> prediction; ///< out of the set's total
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
    ByPhase<std::size_t> reached;     ///< sets under which it was reached
    std::size_t hardest;              ///< position of the set where it takes the largest share of the total
    ByPhase<MarksDifference> cushion; ///< above the boundary in that set; below 0 where short of it
};

struct Standing {
    std::vector<StandingUnder> under; ///< in the order of the sets
    std::vector<GradeOutlook> grades; ///< from the top down
    std::vector<Unmatched> unmatched; ///< in the order of the sets
};

/// A candidate's standing under each of the sets, with predictions where `next` is given. Throws Error as
/// check_boundary_set() does. Sets may be of several subjects.
Standing standing(const Candidate& candidate, const std::vector<BoundarySet>& sets,
                  const NextPaper& next = {});

/// The bands that can be shown beside all of a candidate's sittings, as shares: those of the sets for every
/// sitting's subject.
std::vector<GradeBand> bands_for(const Candidate& candidate, const std::vector<BoundarySet>& sets);

/// Whether sets of this subject are for the paper; those of an empty one are for all papers.
bool covers(std::string_view subject, const Paper& paper);

/// The sets for the paper's subject, or for all subjects, whose total is its marks.
std::vector<BoundarySet> sets_of(const Paper& paper, const std::vector<BoundarySet>& sets);

/// The bands that can be shown beside totals of one paper: those of sets_of() it.
std::vector<GradeBand> bands_for(const Paper& paper, const std::vector<BoundarySet>& sets);

/// A standing under the sets of one subject.
struct SubjectStanding {
    std::string subject;           ///< empty: all subjects
    std::vector<BoundarySet> sets; ///< to which the positions point
    Standing standing;
};

/// Everything that is shown of a candidate's standing.
struct CandidateStanding {
    std::string candidate;
    std::string subject;                   ///< empty: all subjects
    std::vector<SubjectStanding> subjects; ///< those that have sets, by subject
    /// What the sets are compared with, if that is the same for all that fit; else the paper sat last.
    /// Nothing: none was sat.
    std::optional<Basis> basis;
    std::optional<Prediction> prediction; ///< the next total of as many marks
    std::size_t in_part = 0;              ///< sittings of parts of a paper: compared with no set
};

/// The sets to look at, by subject and otherwise in their order. If a subject is asked for, sets for other
/// subjects are left out, and sets for all subjects count as that subject's.
std::vector<BoundarySet> sets_for(const std::string& subject, std::vector<BoundarySet> sets);

/// The standing in every subject, or in one alone, under sets_for() it.
CandidateStanding standing_in(const std::string& subject, const Candidate& candidate,
                              const std::vector<BoundarySet>& sets, const NextPaper& next = {});

} // namespace inkturn
