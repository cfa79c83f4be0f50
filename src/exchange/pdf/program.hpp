#pragma once

#include "inkturn/base/error.hpp"

#include <chrono>
#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// The most that a program may use, each included.
struct ProgramLimits {
    std::chrono::milliseconds time =
        std::chrono::seconds(60);                 ///< from start to end; of the processor as much
    std::size_t memory = std::size_t{1} << 30;    ///< bytes of address space
    std::size_t output = std::size_t{64} << 20;   ///< bytes
    std::size_t messages = std::size_t{64} << 10; ///< bytes that are kept; more are passed over
};

/// What a program left when it came to its end.
struct ProgramResult {
    int code;             ///< what it exited with
    std::string output;   ///< of its standard output
    std::string messages; ///< of its standard error, the first of them
};

/// A program that is not on this machine.
class MissingProgram : public Error {
  public:
    using Error::Error;
};

/// Runs a program that is looked for in PATH and waits for its end. `words` are its name and its arguments,
/// handed over as they are: no shell reads them. It has nothing to read, no open file of ours, and writes no
/// file. Throws MissingProgram, with the Debian package that has it, where it is not found; Error where it
/// can't be started, goes beyond a limit, or is ended by a signal.
ProgramResult run_program(const std::vector<std::string>& words, const std::string& package,
                          const ProgramLimits& limits = {});

/// A file's name as an argument that no program takes for an option or for something other than a file.
std::string file_argument(const std::string& file);

} // namespace inkturn
