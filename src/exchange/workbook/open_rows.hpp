#pragma once

#include "exchange/csv/csv.hpp"
#include "exchange/table/rows.hpp"

#include <iosfwd>
#include <memory>
#include <optional>
#include <string>

namespace inkturn {

/// The rows of a CSV file or of a workbook: its first bytes say which it is, and never its name. The stream
/// must outlive the rows. Throws Error if a sheet is named and it is no workbook.
std::unique_ptr<Rows> open_rows(std::istream& in, const CsvOptions& options,
                                const std::optional<std::string>& sheet);

} // namespace inkturn
