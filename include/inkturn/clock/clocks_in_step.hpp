#pragma once

#include "inkturn/clock/reading.hpp"

#include <chrono>
#include <cstdint>

namespace inkturn {

/// From what both clocks show at once, the steady one counted in step with the wall clock's seconds.
ClockReading clock_reading(std::chrono::nanoseconds wall, std::chrono::nanoseconds steady, std::uint32_t run);

} // namespace inkturn
