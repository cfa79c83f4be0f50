#pragma once

#include "exchange/workbook/package.hpp"
#include "exchange/workbook/sheet.hpp"
#include "exchange/workbook/sheet_choice.hpp"

namespace inkturn {

/// Reads a sheet of an Office Open XML workbook (ECMA-376). Throws Error.
WorkbookSheet read_xlsx(WorkbookPackage& package, const SheetChoice& choice);

} // namespace inkturn
