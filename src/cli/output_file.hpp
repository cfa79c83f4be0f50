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
    /// Where --output may be left out; `help` says what comes of it.
    void add_to(Command& command, const std::string& help);
};

/// Writes a whole file that its owner alone may read, or to standard output where its name is `-`. The file
/// is there whole or not at all. Throws Error where there is one already and `force` is not given, where that
/// is no regular file, and where it can't be written.
void write_output(const Context& context, const OutputOptions& options, const std::string& content);

} // namespace inkturn
