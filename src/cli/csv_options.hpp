#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "exchange/csv/csv.hpp"
#include "exchange/csv/problem_list.hpp"

#include <string>

namespace inkturn {

/// --delimiter and --encoding as typed.
struct CsvOptionTexts {
    std::string delimiter;
    std::string encoding;

    void add_to(Command& command);
    /// Throws Error.
    CsvOptions read() const;
};

/// Lists the problems on standard error, each with its place; throws Error where there are any, which says
/// what was not done because of them.
void refuse_problems(const Context& context, const std::string& file, const ProblemList& problems,
                     const std::string& undone = "nothing was stored");

/// The same of a list that is whole.
void refuse_problems(const Context& context, const std::string& file, const std::vector<Problem>& problems,
                     const std::string& undone = "nothing was stored");

} // namespace inkturn
