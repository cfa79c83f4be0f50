#pragma once

#include "cli/output_file.hpp"

#include <string>

namespace inkturn {

/// --csv, and the file that --output names for it; standard output without one.
struct CsvOutput {
    bool csv = false;
    OutputOptions output;

    /// Adds both; `help` says what --csv prints. Returns --csv.
    Option add_to(Command& command, const std::string& help);
    bool to_file() const { return !output.file.empty() && output.file != "-"; }
    /// Writes a file that only its owner may read, or to standard output.
    void write(const Context& context, const std::string& text) const;
};

} // namespace inkturn
