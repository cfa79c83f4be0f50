#pragma once

#include "exchange/workbook/number_format.hpp"
#include "exchange/workbook/package.hpp"
#include "exchange/workbook/sheet.hpp"
#include "exchange/workbook/sheet_choice.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What a part of an Office Open XML package points to.
struct Relationship {
    std::string id;
    std::string kind; ///< the last word of its type, such as `worksheet`
    std::string part; ///< the whole name of the part in the package
};

/// Those of a part, or of the package if its name is empty; none where it has none.
std::vector<Relationship> relationships_of(WorkbookPackage& package, const std::string& part);

/// The first one of this kind.
std::optional<std::string> part_of_kind(const std::vector<Relationship>& relationships,
                                        std::string_view kind);

/// A workbook's own part.
struct WorkbookPart {
    bool is_workbook = false;
    bool from_1904 = false;          ///< days count from 1904-01-01
    std::vector<ListedSheet> sheets; ///< those with cells
    std::vector<std::string> parts;  ///< where each of them is
};

WorkbookPart read_workbook_part(WorkbookPackage& package, const std::string& part);

/// The texts that cells share, by their number; they are kept by the sheet.
std::vector<std::string_view> read_shared_strings(WorkbookPackage& package, const std::string& part,
                                                  WorkbookSheet& sheet);

/// How numbers are shown, by the number of a cell's style.
class NumberFormats {
  public:
    NumberFormats() = default;
    NumberFormats(WorkbookPackage& package, const std::string& part);

    /// General for a style that isn't there.
    const NumberFormat& of_style(std::size_t style) const;

  private:
    std::vector<NumberFormat> formats_{NumberFormat()};
    std::vector<std::size_t> by_style_; ///< positions in formats_
};

/// Reads digits alone; nothing for anything else.
std::optional<std::uint32_t> read_natural(std::string_view text);

/// A text of the file with each `_x000A_` as the character of that code.
std::string unescaped(std::string_view text);

} // namespace inkturn
