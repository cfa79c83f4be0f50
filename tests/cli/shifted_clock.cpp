// In place of src/cli/computer_clock.cpp: the clocks of this computer, moved by what the file named by
// INKTURN_SHIFT says: seconds of the wall clock, seconds of the steady one, and which start of the computer
// it is.

#include "cli/computer_clock.hpp"

#include "inkturn/clock/clocks_in_step.hpp"

#include <chrono>
#include <cstdlib>
#include <fstream>

namespace inkturn {
namespace {

struct Shift {
    std::int64_t wall = 0;
    std::int64_t steady = 0;
    std::uint32_t run = 1;
};

Shift shift_now() {
    Shift shift;
    const char* const name = std::getenv("INKTURN_SHIFT");
    if (std::ifstream file(name ? name : ""); file)
        file >> shift.wall >> shift.steady >> shift.run;
    return shift;
}

} // namespace

Moment wall_clock_now() {
    return date::floor<Seconds>(std::chrono::system_clock::now()) + Seconds{shift_now().wall};
}

ClockReading clocks_now() {
    const Shift shift = shift_now();
    return clock_reading(std::chrono::system_clock::now().time_since_epoch() + Seconds{shift.wall},
                         std::chrono::steady_clock::now().time_since_epoch() + Seconds{shift.steady},
                         shift.run);
}

} // namespace inkturn
