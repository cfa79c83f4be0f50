#pragma once

#include "inkturn/clock/reading.hpp"

namespace inkturn {

Moment wall_clock_now();

/// Both clocks of this computer. The steady one goes on while the computer sleeps where the system has such a
/// clock.
ClockReading clocks_now();

} // namespace inkturn
