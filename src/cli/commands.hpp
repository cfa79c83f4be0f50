#pragma once

#include "cli/context.hpp"

#include <CLI/CLI.hpp>

namespace inkturn {

// One a command, each defined in the file of its name.
void add_booklet(CLI::App& app, Context& context);
void add_boundaries(CLI::App& app, Context& context);
void add_calendar(CLI::App& app, Context& context);
void add_candidate(CLI::App& app, Context& context);
void add_class(CLI::App& app, Context& context);
void add_days(CLI::App& app, Context& context);
void add_exam(CLI::App& app, Context& context);
void add_export(CLI::App& app, Context& context);
void add_facts(CLI::App& app, Context& context);
void add_import(CLI::App& app, Context& context);
void add_log(CLI::App& app, Context& context);
void add_mark(CLI::App& app, Context& context);
void add_pace(CLI::App& app, Context& context);
void add_paper(CLI::App& app, Context& context);
void add_picture(CLI::App& app, Context& context);
void add_plan(CLI::App& app, Context& context);
void add_week(CLI::App& app, Context& context);
void add_report(CLI::App& app, Context& context);
void add_retry(CLI::App& app, Context& context);
void add_scale(CLI::App& app, Context& context);
void add_sit(CLI::App& app, Context& context);
void add_sitting(CLI::App& app, Context& context);
void add_standing(CLI::App& app, Context& context);
void add_today(CLI::App& app, Context& context);
void add_topics(CLI::App& app, Context& context);
void add_trend(CLI::App& app, Context& context);

/// The command line: global options, and those of the commands whose names are among the words typed, which
/// saves setting the others up; all where none is, or where help is asked for.
void add_commands(CLI::App& app, Context& context, const std::vector<std::string_view>& words);

/// Parses, then runs what was asked. Returns the exit code of a command line that needs no run (help,
/// version) or is wrong; throws what the run throws.
int run_command_line(int argc, char** argv, Context& context);

} // namespace inkturn
