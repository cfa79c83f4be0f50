#pragma once

#include "cli/command_line.hpp"

#include <vector>

namespace inkturn {

/// The top-level commands, in the order the help lists them.
std::vector<CommandEntry> commands();

/// What `inkturn` does without a command: today, or the first steps on an empty store.
void run_alone(const Context& context);

// One per command, each defined in the file of that name.
void add_backup(Command& line);
void add_booklet(Command& line);
void add_award(Command& line);
void add_phone(Command& line);
void add_boundaries(Command& line);
void add_calendar(Command& line);
void add_candidate(Command& line);
void add_changes(Command& line);
void add_check(Command& line);
void add_class(Command& line);
void add_config(Command& line);
void add_days(Command& line);
void add_exam(Command& line);
void add_export(Command& line);
void add_facts(Command& line);
void add_import(Command& line);
void add_lesson(Command& line);
void add_log(Command& line);
void add_mark(Command& line);
void add_pace(Command& line);
void add_paper(Command& line);
void add_picture(Command& line);
void add_plan(Command& line);
void add_redo(Command& line);
void add_report(Command& line);
void add_restore(Command& line);
void add_retry(Command& line);
void add_sample(Command& line);
void add_scale(Command& line);
void add_set(Command& line);
void add_sit(Command& line);
void add_sitting(Command& line);
void add_standing(Command& line);
void add_today(Command& line);
void add_topics(Command& line);
void add_trend(Command& line);
void add_undo(Command& line);
void add_week(Command& line);

} // namespace inkturn
