#pragma once

#include "cli/context.hpp"
#include "inkturn/base/moment.hpp"
#include "inkturn/store/desk.hpp"

#include <optional>
#include <string>

namespace inkturn {

/// How a clock on the terminal was left.
struct ClockExit {
    bool handed_in = false;
    int signal = 0; ///< that ended it; 0: none
};

/// Waits on the terminal until the moment, or until a key says to start: the moment of the start. Nothing
/// where it was left before.
std::optional<Moment> wait_for_start(const Context& context, Moment start, ClockExit& clock_exit);

/// Runs the clock of a script on the terminal until it is handed in or left; each event is in the store
/// before the next key is read. Throws Error where there is no terminal.
ClockExit run_live_clock(const Context& context, Store& store, Script& script);

/// Throws Error unless there is a terminal for a clock.
void check_clock_has_terminal(const std::string& command);

/// Ends this program the way that the signal would have ended it.
void end_by(int signal);

} // namespace inkturn
