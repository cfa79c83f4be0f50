#pragma once

// Runs GLPK's solver on an integer programme, to compare with.

#include "catch.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <string>
#include <system_error>

namespace inkturn::test {

inline void run_glpsol(const std::filesystem::path& programme, const std::filesystem::path& solution) {
    std::array<std::string, 5> words{"glpsol", "--lp", programme.string(), "-o", solution.string()};
    std::array<char*, 6> arguments{};
    for (std::size_t i = 0; i < words.size(); ++i)
        arguments[i] = words[i].data();
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    pid_t child = 0;
    const int error = posix_spawnp(&child, "glpsol", &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (error == ENOENT)
        FAIL("glpsol was not found: install GLPK's command-line solver (package glpk-utils).");
    if (error != 0)
        FAIL("glpsol did not start: " << std::generic_category().message(error));
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
        FAIL("glpsol failed on " << programme << ", wait status " << status);
}

/// From the line `Objective:  over = 216 (MINimum)`, if the solution is optimal.
inline double objective(const std::filesystem::path& solution) {
    std::ifstream in(solution);
    bool is_optimal = false;
    for (std::string line; std::getline(in, line);) {
        is_optimal = is_optimal || line.find("INTEGER OPTIMAL") != std::string::npos;
        if (line.compare(0, 10, "Objective:") == 0 && is_optimal)
            return std::stod(line.substr(line.find('=') + 1));
    }
    FAIL("glpsol wrote no integer optimum to " << solution);
    return 0;
}

} // namespace inkturn::test
