#pragma once

#include "cli/command_line.hpp"
#include "exchange/json/command_table.hpp"

#include <vector>

namespace inkturn {

/// The program itself, with the options that go with every command, and the commands that these entries
/// describe: what help, man pages and completions are made of.
CommandRow command_table(const std::vector<CommandEntry>& commands, Context& context);

} // namespace inkturn
