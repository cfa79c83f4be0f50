#pragma once

#include "inkturn/grades/boundaries.hpp"
#include "inkturn/paper/marks_difference.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/statistics/analysis.hpp"

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace inkturn {

/// A number of candidates, by marks in time and by own marks.
struct ClassCount {
    std::size_t in_time;
    std::size_t unaided;
};

/// One grade of a set.
struct GradeCount {
    ClassCount reached;   ///< whose grade it is
    ClassCount or_better; ///< with those who have one above
};

/// Candidates of whom the same papers are held against a set.
struct SharedBasis {
    std::vector<std::shared_ptr<const Paper>> papers; ///< by id
    std::size_t candidates;
    /// Of measurement, in marks of their total: the root of the sum of squares of the papers', each over the
    /// latest sittings of all candidates there are. Where a paper has none, why.
    Figure standard_error;
};

/// A candidate within the standard error of a boundary.
struct NearBoundary {
    std::string candidate;
    Marks unaided;
    std::size_t boundary;  ///< the nearest, a position in BoundarySet::grades; of two as near the upper
    MarksDifference above; ///< own marks less the boundary
    std::size_t basis;     ///< position in ClassUnder::bases
};

/// How a class stands under one boundary set.
struct ClassUnder {
    BoundarySet set;
    std::size_t counted;            ///< candidates of whom something is held against it, see basis_for()
    std::size_t not_counted;        ///< the others
    std::vector<GradeCount> grades; ///< as the set's
    ClassCount below;               ///< the lowest grade
    std::vector<SharedBasis> bases; ///< by papers
    std::vector<NearBoundary> near; ///< by code; none of those whose total has no standard error
};

/// The standing of all candidates under each of sets_for() the subject.
std::vector<ClassUnder> class_standing(const std::vector<Candidate>& candidates,
                                       const std::vector<BoundarySet>& sets, const std::string& subject = {});

} // namespace inkturn
