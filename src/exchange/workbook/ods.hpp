#pragma once

#include "exchange/workbook/package.hpp"
#include "exchange/workbook/sheet.hpp"
#include "exchange/workbook/sheet_choice.hpp"

namespace inkturn {

/// Reads a sheet of an OpenDocument spreadsheet (OASIS ODF 1.2). Throws Error.
WorkbookSheet read_ods(WorkbookPackage& package, const SheetChoice& choice);

} // namespace inkturn
