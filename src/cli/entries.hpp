#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "inkturn/paper/noted_entries.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// For help pages: how marks and reasons are typed, and what the reasons set off.
std::string marks_help();

/// Marks as typed, with the notes beside them and those of --note. Throws Error.
NotedEntries parse_entries(const std::vector<std::string>& words, const std::vector<std::string>& notes);

/// `--note`, for commands that take entries.
void add_note_option(Command& command, std::vector<std::string>& notes);

/// `full` or `none`; nothing if nothing was typed. Throws Error.
std::optional<Rest> parse_rest(const std::string& text);

/// The candidate's own extra time, else none.
ExtraTime extra_time_of(const Candidate& candidate);
/// The extra time typed, else the candidate's own, else what the file of defaults states for its candidate,
/// which is told, else none. Throws Error.
ExtraTime extra_time_of(const Context& context, const std::string& typed, const Candidate& candidate);

/// What --only names; nothing if nothing was typed. Throws Error as parts_set() does.
std::optional<std::vector<std::size_t>> parse_only(const Paper& paper, const std::string& text);

/// A sitting on file: as JSON, or its retries and their days, marks by ink, and what else was moved;
/// `with_parts`, part by part and with its pace chart too.
void print_sitting(const Context& context, const Candidate& candidate, SittingId id,
                   const KeptTimetable& kept, bool with_parts = false);

} // namespace inkturn
