#pragma once

#include "cli/command_line.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// For a shell: prints what may stand where the last of the words typed so far begins, a line each, with a
/// tab and what it means where that helps; or `:files` for the names of files. A value that ends with `=` or
/// `:` is to go on. Prints nothing rather than fail: a store that can't be read offers no ids.
void complete(std::vector<std::string> words, const std::vector<CommandEntry>& commands, Context& context);

} // namespace inkturn
