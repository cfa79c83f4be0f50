#pragma once

#include "inkturn/grades/boundaries.hpp"
#include "inkturn/paper/marks_difference.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/statistics/analysis.hpp"
#include "inkturn/statistics/comparison.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A number of candidates, by marks in time and by unaided marks.
struct ClassCount {
    std::size_t in_time;
    std::size_t unaided;
};

/// One grade of a set.
struct GradeCount {
    ClassCount reached;   ///< whose grade it is
    ClassCount or_better; ///< with those whose grade is higher
};

/// Candidates for whom the same papers are compared with a set.
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
    std::size_t boundary;  ///< the nearest, a position in BoundarySet::grades; the upper if tied
    MarksDifference above; ///< unaided marks less the boundary
    std::size_t basis;     ///< position in ClassUnder::bases
};

/// How a class stands under one boundary set.
struct ClassUnder {
    BoundarySet set;
    std::size_t counted;            ///< candidates with marks to compare with it, see basis_for()
    std::size_t absent;             ///< who sat nothing of the set's subject
    std::size_t not_fitting;        ///< the others, whose marks don't fit the total
    std::vector<GradeCount> grades; ///< as the set's
    ClassCount below;               ///< the lowest grade
    std::vector<SharedBasis> bases; ///< by papers
    std::vector<NearBoundary> near; ///< by distance, then by code; none of those whose total has no
                                    ///< standard error
    double grade_width = 0;         ///< mean marks between neighbouring boundaries; 0 for a single one

    std::size_t not_counted() const { return absent + not_fitting; }

    /// Whether a standard error is longer than half of a grade's width, so that nearly everyone is near.
    bool nearly_all_near() const;
};

/// Where a candidate is near a boundary, under sets that are held against the same marks.
struct NearUnder {
    std::string candidate;
    Marks unaided;
    std::vector<std::optional<NearBoundary>> sets; ///< in their order

    /// How many are shown where nearly everyone is near.
    static constexpr std::size_t nearest = 5;
};

/// Those near a boundary under any of the sets, all of one subject and total: by the least distance, then by
/// code. Only NearUnder::nearest where under any of them nearly everyone is near.
std::vector<NearUnder> near_boundaries(const std::vector<ClassUnder>& sets);

/// The sets that marks were held against, those of one subject and total together, as they come first.
std::vector<std::vector<ClassUnder>> held_alike(const std::vector<ClassUnder>& all);

/// How the sittings of one paper stand under each of sets_of() it: those of the whole paper are counted.
std::vector<ClassUnder> paper_standing(const Side& side, const std::vector<BoundarySet>& sets);

/// The standing of all candidates under each of sets_for() the subject. Throws Error as check_boundary_set()
/// does.
std::vector<ClassUnder> class_standing(const std::vector<Candidate>& candidates,
                                       const std::vector<BoundarySet>& sets, const std::string& subject = {});

} // namespace inkturn
