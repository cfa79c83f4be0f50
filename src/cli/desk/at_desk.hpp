#pragma once

#include "cli/context.hpp"
#include "cli/student/timetable_on_file.hpp"
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

/// Stores the script and runs its clock, from now or the time in the options; or reads its events from a
/// file. Prints the result.
void write_script(const Context& context, Store& store, Script script, const DeskOptions& options);

/// Continues the clock of a script on file; if `stopped_at` is given, after a break from then until now.
void resume_script(const Context& context, Store& store, Script script, const std::string& stopped_at);

/// The script with this id, if it is on file. Throws Error if it belongs to another candidate than the one
/// named.
std::optional<Script> script_on_file(const Context& context, Store& store, const ScriptId& id);

/// The command to run next: `inkturn sit --resume`, or `inkturn mark 12`.
std::string next_command(const Script& script);

/// `Sitting 12: pure-1`, `Retry 12q7: question 7 of pure-1`.
std::string heading_of(const Script& script);

/// The candidate's script whose clock is running; nothing if there is none.
std::optional<Script> running_script(const Store& store, const std::string& candidate);

/// Throws Error if the candidate has a clock running.
void check_desk_is_free(const Store& store, const std::string& candidate);

/// Throws Error if the script's clock is still running.
void check_is_handed_in(const Script& script);

/// A candidate with a script of theirs replaced by its sitting or re-attempt, and the retries now open.
struct MarkedThrough {
    Candidate candidate;
    KeptTimetable kept;
};

/// Stores the marks of a script that was handed in. Once all are there, the sitting or re-attempt replaces
/// the script; until then nothing is returned. Throws Error if the clock is still running, or the re-attempt
/// isn't allowed.
std::optional<MarkedThrough> keep_marks(Store::Change& change, const Script& script, Day today);

/// Labels of the parts still to mark.
std::vector<std::string> not_marked(const Script& script);

/// Prints a script on the desk: its clock, and the parts still to mark.
void print_script(const Context& context, const Script& script);

/// Prints a script's clock: pace chart, times of the parts, breaks.
void print_clock(const Context& context, const Clock& clock);

} // namespace inkturn
