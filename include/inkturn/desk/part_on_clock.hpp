#pragma once

#include "inkturn/clock/clock.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/paper/codes.hpp"

#include <vector>

namespace inkturn {

/// What the clock of a script saw of one of its parts. A part may have been in hand for no whole second.
struct PartOnClock {
    bool in_time = false;  ///< in hand before the ink changed
    bool overtime = false; ///< in hand from then on
    PartTime time;
    Seconds allowance{0};
};

/// In the order of the script's positions; empty where it has no clock.
std::vector<PartOnClock> parts_on_clock(const Script& script);

/// The phase of the first marks that were earned in the part, going by the clock: overtime where it was in
/// hand then and not before.
Phase first_phase(const PartOnClock& seen);

} // namespace inkturn
