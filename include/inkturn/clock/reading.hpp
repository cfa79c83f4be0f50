#pragma once

#include "inkturn/base/moment.hpp"
#include "inkturn/base/time.hpp"

#include <cstdint>
#include <optional>

namespace inkturn {

/// What a computer's two clocks show at once: the wall clock, which may be set, and a steady one, which only
/// counts on.
struct ClockReading {
    Moment wall;
    Seconds steady{0};     ///< since the computer was started; below 0 if that was later
    std::uint32_t run = 0; ///< tells one start of the computer from another; 0: not known
};

/// Whether the steady clock can tell how much time passed between readings, the first of which may be
/// missing.
bool is_same_start(const std::optional<ClockReading>& then, const ClockReading& now);

/// What the clocks showed this long before.
ClockReading earlier(const ClockReading& reading, Seconds ago);

/// A wall clock that went on by more, or less, than the time that passed.
struct ClockDoubt {
    Seconds jump; ///< of the wall clock: above 0 forward, below 0 back
    /// Now, by the steady clock; nothing where the computer was started anew, and so nobody knows.
    std::optional<Moment> by_steady;
    Moment by_wall; ///< now, by the wall clock
};

/// Now on the clock of a sitting, never before its last event; while it is in doubt, by the time that passed.
struct TimeNow {
    Moment at;
    std::optional<ClockDoubt> doubt;
};

/// A jump of up to this is taken as it is.
constexpr Seconds max_jump{2};

/// `then` is what was shown at the last event, if that was noted. A steady clock is trusted over the wall
/// clock within one start of the computer; after another one, only a wall clock that shows less than then is
/// doubted.
TimeNow time_now(Moment last_event, const std::optional<ClockReading>& then, const ClockReading& now);

} // namespace inkturn
