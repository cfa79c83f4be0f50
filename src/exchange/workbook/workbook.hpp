#pragma once

#include "exchange/workbook/limits.hpp"
#include "exchange/workbook/sheet.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// How many bytes of a file is_workbook() needs.
constexpr std::size_t workbook_mark_bytes = 4;

/// Whether a file that begins so is packed as workbooks are, or as they once were.
bool is_workbook(std::string_view start);

/// Reads a sheet of an .xlsx or .ods file (docs/formats/workbooks.md): the one of this name, or the only one
/// with content. Throws Error that says what is wrong and what to do, within bounded memory and time.
WorkbookSheet read_workbook(std::string_view bytes, const std::optional<std::string>& sheet,
                            const WorkbookLimits& limits = {});

} // namespace inkturn
