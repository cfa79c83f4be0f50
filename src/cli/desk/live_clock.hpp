#pragma once

#include "cli/context.hpp"
#include "inkturn/base/moment.hpp"
#include "inkturn/clock/reading.hpp"
#include "inkturn/store/desk.hpp"

#include <optional>
#include <string>

namespace inkturn {

/// How a clock on the terminal was left.
struct ClockExit {
    bool handed_in = false;
    std::optional<int> signal; ///< the signal that ended it
};

/// A start of a clock, and what the computer's clocks showed then.
struct ClockStart {
    Moment at;
    ClockReading reading;
};

/// Waits on the terminal until `start`, or until a key starts the clock. Returns when it started; nothing if
/// the wait was left.
std::optional<ClockStart> wait_for_start(const Context& context, Moment start, ClockExit& clock_exit);

/// Runs the clock of a script on the terminal until it is handed in or left; each event is stored
/// before the next key is read. Throws Error if there is no terminal.
ClockExit run_live_clock(const Context& context, Store& store, Script& script);

/// Throws Error unless there is a terminal for a clock.
void check_clock_has_terminal(const std::string& command);

/// Ends this program as the signal would have.
void end_by(int signal);

} // namespace inkturn
