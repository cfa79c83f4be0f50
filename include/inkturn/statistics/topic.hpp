#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/copies.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/retry/candidate.hpp"

#include <memory>
#include <vector>

namespace inkturn {

/// Some marks of a candidate in a paper.
struct PaperMarks {
    std::shared_ptr<const Paper> paper;
    std::vector<PartMarks> parts; ///< in the paper's order, one per part; not set: these marks are not of it
    ExtraTime extra_time;         ///< of the sitting
    Day day{};                    ///< of the sitting
};

/// The marks of parts that the candidate had not seen before: neither in an earlier sitting of the paper nor
/// in a copy of their question. In the order of Candidate::sittings.
std::vector<PaperMarks> unseen_marks(const Candidate& candidate, const std::vector<Copies>& copies = {});

/// The marks of the latest re-attempt at each part, of those that had one.
std::vector<PaperMarks> reattempted_marks(const Candidate& candidate);

} // namespace inkturn
