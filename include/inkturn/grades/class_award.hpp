#pragma once

#include "inkturn/grades/award_standing.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// Where a candidate of a class stands in an award.
struct CandidateInAward {
    std::string candidate;
    AwardStanding standing;
};

/// How a class stands in an award, candidate by candidate: sums of different components are not one scale, so
/// nothing is counted over them.
struct ClassAward {
    Award award;
    std::vector<CandidateInAward> candidates; ///< those who sat a component of it, in their order
    std::size_t without = 0;                  ///< who sat none
};

/// The standing in each of award_standings() the subject. Throws Error as these do.
std::vector<ClassAward> class_awards(const std::vector<Award>& awards, const std::string& subject,
                                     const std::vector<Candidate>& candidates,
                                     const std::vector<BoundarySet>& sets);

} // namespace inkturn
