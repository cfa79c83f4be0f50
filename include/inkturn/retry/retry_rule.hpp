#pragma once

#include "inkturn/paper/marks.hpp"

namespace inkturn {

/// What was missed of a question in one attempt.
struct Missed {
    Marks marks;      ///< short of the maximum, over the parts that were missed
    bool slips_alone; ///< each of these parts states a slip or a misreading as its reason
};

/// Which misses make a retry. It decides on retries alone: what was recorded stays, and statistics count all.
struct RetryRule {
    Marks missed_from{1}; ///< the fewest marks missed of a question, 1 to max_part_marks
    bool slips = true;    ///< slips and misreadings alone make one too

    bool makes_retry(const Missed& missed) const {
        return missed.marks > Marks(0) && missed.marks >= missed_from && (slips || !missed.slips_alone);
    }
    bool is_default() const { return missed_from == RetryRule().missed_from && slips; }
};

/// Throws Error unless missed_from is within its range.
void check_rule(const RetryRule& rule);

} // namespace inkturn
