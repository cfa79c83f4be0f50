#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "exchange/csv/csv.hpp"
#include "exchange/table/problem_list.hpp"

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

/// `, line 3, column 5`; `, cell B7` in a workbook; empty for the file as a whole.
std::string place_text(const Problem& problem);

/// Lists the problems, if any, on standard error, each with its place; then throws an Error that says what
/// was not done because of them.
void refuse_problems(const Context& context, const std::string& file, const ProblemList& problems,
                     const std::string& undone = "nothing was stored");

/// The same for a complete list.
void refuse_problems(const Context& context, const std::string& file, const std::vector<Problem>& problems,
                     const std::string& undone = "nothing was stored");

} // namespace inkturn
