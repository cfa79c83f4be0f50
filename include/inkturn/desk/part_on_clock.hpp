#pragma once

#include "inkturn/clock/clock.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/paper/codes.hpp"

#include <vector>

namespace inkturn {

/// What the clock of a script saw of one of its parts. A part may have been in hand for less than a second.
struct PartOnClock {
    bool in_time = false;  ///< in hand before the ink changed
    bool overtime = false; ///< in hand from then on
    PartTime time;
    Seconds allowance{0};
};

/// In the order of the script's positions; empty where it has no clock.
std::vector<PartOnClock> parts_on_clock(const Script& script);

/// The phase of the first marks that were earned in the part, going by the clock: overtime if it was in hand
/// then and not before.
Phase first_phase(const PartOnClock& seen);

/// Whether a part has marks in overtime though the script's clock never reached it.
bool is_overtime_doubtful(const std::vector<PartOnClock>& seen, const PartMarks& marks);

} // namespace inkturn
