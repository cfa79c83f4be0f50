#pragma once

#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/retry/candidate.hpp"

#include <memory>
#include <vector>

namespace inkturn {

/// How a candidate stands in a paper now.
struct LatestMarks {
    std::shared_ptr<const Paper> paper;
    std::vector<PartMarks> parts; ///< in the paper's order, one per part
    ExtraTime extra_time;         ///< of the sitting
};

/// The marks of the latest attempt at each part: those of the latest sitting in which it
/// counted, replaced by the last re-attempt recorded for it; elsewhere it counts as not set. In the order of
/// Candidate::sittings.
std::vector<LatestMarks> latest_marks(const Candidate& candidate);

} // namespace inkturn
