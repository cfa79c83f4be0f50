#include "inkturn/clock/reading.hpp"

#include "inkturn/clock/clocks_in_step.hpp"

#include <algorithm>

namespace inkturn {
namespace {

bool is_jump(Seconds difference) {
    return difference > max_jump || difference < -max_jump;
}

} // namespace

ClockReading clock_reading(std::chrono::nanoseconds wall, std::chrono::nanoseconds steady,
                           std::uint32_t run) {
    const Moment second = date::floor<Seconds>(
        std::chrono::time_point<std::chrono::system_clock, std::chrono::nanoseconds>(wall));
    return {second, std::chrono::round<Seconds>(steady - (wall - second.time_since_epoch())), run};
}

bool is_same_start(const std::optional<ClockReading>& then, const ClockReading& now) {
    return then && then->run == now.run && (then->run != 0 || then->steady <= now.steady);
}

ClockReading earlier(const ClockReading& reading, Seconds ago) {
    return {reading.wall - ago, reading.steady - ago, reading.run};
}

TimeNow time_now(Moment last_event, const std::optional<ClockReading>& then, const ClockReading& now) {
    const Seconds by_wall = now.wall - (then ? then->wall : last_event);
    const Moment wall = last_event + std::max(Seconds(0), by_wall);
    if (is_same_start(then, now)) {
        const Seconds passed = now.steady - then->steady;
        const Moment steady = last_event + std::max(Seconds(0), passed);
        if (is_jump(by_wall - passed))
            return {steady, ClockDoubt{by_wall - passed, steady, wall}};
    } else if (by_wall < -max_jump) {
        return {wall, ClockDoubt{by_wall, std::nullopt, wall}};
    }
    return {wall, std::nullopt};
}

} // namespace inkturn
