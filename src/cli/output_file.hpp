#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"

#include <cstddef>
#include <cstdint>
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

/// `2.1 MB`, `48 KB`: rounded up.
std::string size_text(std::size_t bytes);

/// How a file says that it was written here, and has not been changed since: by a sum over its content.
enum class OwnMark : std::uint8_t {
    none,
    html,    ///< a comment after the page
    calendar ///< a property of the calendar, after its PRODID (RFC 5545, 3.8.8.2)
};

/// Pages are laid out from now on for the paper that the file of defaults names. Throws Error if it names it
/// wrongly.
void use_paper_size(const Context& context);

/// Writes a file that only its owner may read, or to standard output if its name is `-`. The file is written
/// whole or not at all. Throws Error if it is not a regular file, if it can't be written, or if it exists
/// already, unless `force` is given or it bears the same mark.
void write_output(const Context& context, const OutputOptions& options, const std::string& content,
                  OwnMark mark = OwnMark::none);

/// Throws Error as write_output() does where the file may not be written, and writes nothing.
void check_output(const Context& context, const OutputOptions& options, OwnMark mark = OwnMark::none);

} // namespace inkturn
