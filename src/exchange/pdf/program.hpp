#pragma once

#include "inkturn/base/error.hpp"

#include <chrono>
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The most that a program may use, inclusive.
struct ProgramLimits {
    std::chrono::milliseconds time =
        std::chrono::seconds(60);                 ///< from start to end; the same for processor time
    std::size_t memory = std::size_t{1} << 30;    ///< bytes of address space
    std::size_t output = std::size_t{64} << 20;   ///< bytes
    std::size_t messages = std::size_t{64} << 10; ///< bytes that are kept; the rest are dropped
};

/// What a program left when it ended.
struct ProgramResult {
    int code;             ///< its exit code
    std::string output;   ///< its standard output
    std::string messages; ///< the start of its standard error
};

/// A program that is not installed.
class MissingProgram : public Error {
  public:
    using Error::Error;
};

/// Memory that bytes can be read into.
struct Room {
    char* at = nullptr;
    std::size_t size = 0; ///< bytes
};

/// What a program reads, and who takes what it writes as it comes; if nobody, it is kept whole. What is
/// thrown there stops the program.
struct ProgramStreams {
    std::string_view input{};
    /// Where the bytes that `take` gets next are read to; anywhere if there is no room, or nobody says.
    std::function<Room()> room{};
    std::function<void(std::string_view)> take{};
};

/// Runs a program found in PATH and waits for it to end. `words` are its name and its arguments,
/// passed as they are: no shell reads them. It gets no open file of ours, and can't write files.
/// Throws MissingProgram, with the Debian package that has it, if it is not found; Error if it can't be
/// started, exceeds a limit, or is stopped by a signal.
ProgramResult run_program(const std::vector<std::string>& words, const std::string& package,
                          const ProgramLimits& limits = {}, const ProgramStreams& streams = {});

/// A file's name as an argument that no program takes for anything but a file.
std::string file_argument(const std::string& file);

} // namespace inkturn
