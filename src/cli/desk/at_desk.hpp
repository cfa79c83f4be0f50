#pragma once

#include "cli/context.hpp"
#include "inkturn/base/moment.hpp"
#include "inkturn/store/desk.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// How a script is to be written, as typed.
struct DeskOptions {
    std::string events;   ///< --events
    std::string start_at; ///< --start-at
};

/// Puts the script on file with the start of its clock, now or at the time asked for, and runs that; or reads
/// its events from a file. Says what came of it.
void write_script(const Context& context, Store& store, Script script, const DeskOptions& options);

/// Goes on with the clock of a script on file, after a break from `stopped_at` until now where that is given.
void resume_script(const Context& context, Store& store, Script script, const std::string& stopped_at);

/// The script on file of this id, if there is one. Throws Error where it is somebody else's than the
/// candidate named.
std::optional<Script> script_on_file(const Context& context, Store& store, const ScriptId& id);

/// What goes on with it: `inkturn sit --resume`, or `inkturn mark 12`.
std::string next_command(const Script& script);

/// `Sitting 12: pure-1`, `Retry 12q7: question 7 of pure-1`.
std::string heading_of(const Script& script);

/// The script of the candidate's whose clock runs; nothing where none does.
std::optional<Script> running_script(const Store& store, const std::string& candidate);

/// Throws Error where a clock of the candidate's runs.
void check_desk_is_free(const Store& store, const std::string& candidate);

/// Throws Error where the clock of the script still runs.
void check_is_handed_in(const Script& script);

/// Keeps the marks of a script that was handed in; once all are there, the sitting or the re-attempt takes
/// its place. Whether it did. Throws Error where the clock still runs, or it can't be taken.
bool keep_marks(Store& store, const Script& script, Day today);

/// Labels of the parts that are not marked yet.
std::vector<std::string> not_marked(const Script& script);

/// What people read of a script that is not marked through: marks so far, its clock.
void print_script(const Context& context, const Script& script);

/// What people read of a script's clock: figure, times of the parts, breaks.
void print_clock(const Context& context, const Clock& clock);

} // namespace inkturn
