#pragma once

#include "exchange/workbook/limits.hpp"

#include <cstddef>
#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// `B7` of row 7 and column 2, which count from 1.
std::string cell_name(std::size_t row, std::size_t column);

enum class SheetCellKind : std::uint8_t {
    value,
    error,       ///< the text is what the cell shows, such as `#DIV/0!`
    no_day,      ///< a number that is shown as a day or a time and is none
    uncalculated ///< a formula whose value was not saved; no text
};

/// A cell with content.
struct SheetCell {
    std::uint32_t row;    ///< from 1
    std::uint32_t column; ///< from 1
    SheetCellKind kind;
    std::string_view text; ///< as docs/formats/workbooks.md says; not empty in a value
};

/// What is wrong with a cell that is no value; one sentence, with the remedy.
std::string why_no_value(const SheetCell& cell);

/// The cells with content of one sheet, by row and then by column.
class WorkbookSheet {
  public:
    explicit WorkbookSheet(const WorkbookLimits& limits) : limits_(limits) {}
    WorkbookSheet(WorkbookSheet&&) = default; ///< the cells' texts stay where they are
    WorkbookSheet& operator=(WorkbookSheet&&) = default;
    WorkbookSheet(const WorkbookSheet&) = delete;
    WorkbookSheet& operator=(const WorkbookSheet&) = delete;
    ~WorkbookSheet() = default;

    static constexpr std::uint32_t max_row = 1'048'576;
    static constexpr std::uint32_t max_column = 16'384; ///< XFD

    /// Adds a cell; one without anything that is seen is left out. Throws Error beyond the limits.
    void add(std::uint64_t row, std::uint64_t column, SheetCellKind kind, std::string text);
    /// The same for a text that outlives the sheet or was kept by it.
    void add_kept(std::uint64_t row, std::uint64_t column, SheetCellKind kind, std::string_view text);
    /// Keeps a text that cells share.
    std::string_view keep(std::string text);
    /// Throws Error where a cell's text gets too long.
    void check_length(const std::string& text) const;
    /// Puts the cells into order. Throws Error if a cell is there twice.
    void finish();

    const std::vector<SheetCell>& cells() const { return cells_; }
    const WorkbookLimits& limits() const { return limits_; }

  private:
    WorkbookLimits limits_;
    std::vector<SheetCell> cells_;
    std::deque<std::string> texts_;
    std::size_t text_bytes_ = 0;
};

/// Whether nothing of the text is seen: blanks, no-break ones too, and line breaks.
bool is_blank(std::string_view text) noexcept;

} // namespace inkturn
