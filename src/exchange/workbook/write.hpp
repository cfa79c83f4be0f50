#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// A sheet of texts, the first row the header. A text of digits alone is written as a number.
struct SheetToWrite {
    std::string name; ///< at most 31 characters, without []:*?/\ .
    std::vector<std::vector<std::string>> rows;
    std::vector<std::size_t> widths; ///< of the columns, in characters
};

/// What may be chosen in a column of the sheet.
struct ColumnChoice {
    std::size_t column; ///< from 0
    std::vector<std::string> texts;
};

/// An Office Open XML workbook (ECMA-376) with this sheet, and the choice, if it has any texts, on a hidden
/// one. Texts are never formulas. Throws Error if it would be larger than 1 GB.
std::string workbook_of(const SheetToWrite& sheet, const ColumnChoice& choice);

} // namespace inkturn
