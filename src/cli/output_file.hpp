#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"

#include <string>

namespace inkturn {

/// --output and --force as typed.
struct OutputOptions {
    std::string file;
    bool force = false;

    void add_to(Command& command);
    /// For an optional --output; `help` says what it does.
    void add_to(Command& command, const std::string& help);
};

/// Writes a file that only its owner may read, or to standard output if its name is `-`. The file is written
/// whole or not at all. Throws Error if it exists already and `force` is not given, if it is not a regular
/// file, or if it can't be written.
void write_output(const Context& context, const OutputOptions& options, const std::string& content);

} // namespace inkturn
