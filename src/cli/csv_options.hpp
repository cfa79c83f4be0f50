#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "exchange/csv/csv.hpp"
#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"

#include <cstddef>
#include <functional>
#include <iosfwd>
#include <memory>
#include <string>

namespace inkturn {

/// --delimiter, --encoding and --sheet as typed.
struct CsvOptionTexts {
    std::string delimiter;
    std::string encoding;
    std::string sheet;

    void add_to(Command& command);
    /// Throws Error.
    CsvOptions read() const;

    /// The rows of a CSV file or a workbook, which must outlive them. `progress` is called now and then with
    /// the number of bytes read. Throws Error.
    std::unique_ptr<Rows> rows_of(const InputFile& file,
                                  std::function<void(std::size_t bytes)> progress = nullptr) const;
    /// The same of a stream.
    std::unique_ptr<Rows> rows_of(std::istream& stream,
                                  std::function<void(std::size_t bytes)> progress = nullptr) const;
};

/// `, line 3, column 5`; `, cell B7` in a workbook; empty for the file as a whole.
std::string place_text(const Problem& problem);

/// A message as a line on standard error, broken at words where that is a terminal.
std::string message_line(const std::string& text);

/// Lists the problems, if any, on standard error, each with its place; then throws an Error that says what
/// was not done because of them.
void refuse_problems(const Context& context, const std::string& file, const ProblemList& problems,
                     const std::string& undone = "nothing was stored");

/// The same for a complete list.
void refuse_problems(const Context& context, const std::string& file, const std::vector<Problem>& problems,
                     const std::string& undone = "nothing was stored");

} // namespace inkturn
