#include "cli/computer_clock.hpp"

#include "inkturn/clock/clocks_in_step.hpp"

#include <cstdlib>
#include <ctime>
#include <fstream>
#include <string>

namespace inkturn {
namespace {

#ifdef CLOCK_BOOTTIME
constexpr clockid_t steady_clock_id = CLOCK_BOOTTIME;
#else
constexpr clockid_t steady_clock_id = CLOCK_MONOTONIC;
#endif

/// The start of Linux's name for it; 0 where there is none.
std::uint32_t run_of_computer() {
    std::string name;
    std::ifstream("/proc/sys/kernel/random/boot_id") >> name;
    return static_cast<std::uint32_t>(std::strtoul(name.substr(0, 8).c_str(), nullptr, 16));
}

std::chrono::nanoseconds shown_by(clockid_t clock) {
    timespec time{};
    ::clock_gettime(clock, &time);
    return Seconds{time.tv_sec} + std::chrono::nanoseconds{time.tv_nsec};
}

} // namespace

Moment wall_clock_now() {
    return date::floor<Seconds>(std::chrono::system_clock::now());
}

ClockReading clocks_now() {
    static const std::uint32_t run = run_of_computer();
    return clock_reading(shown_by(CLOCK_REALTIME), shown_by(steady_clock_id), run);
}

} // namespace inkturn
