#pragma once

#include "exchange/table/rows.hpp"
#include "exchange/workbook/workbook.hpp"

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The rows of a workbook's sheet that have content, from its first column with content to its last one.
class WorkbookRows : public Rows {
  public:
    /// `start`: bytes of the file that were taken from the stream already. The stream must outlive the rows;
    /// it is read by the first call of next(). Without a name of a sheet the only one with content is read.
    WorkbookRows(std::istream& in, std::string start, std::optional<std::string> sheet);

    bool next() override;
    const std::vector<std::string_view>& cells() const override { return cells_; }
    std::size_t line(std::size_t i = 0) const override;
    std::size_t column(std::size_t i) const override { return first_column_ + i; }
    std::string cell_name(std::size_t i) const override;
    std::string row_name(std::size_t line) const override;
    std::string fault(std::size_t i) const override;
    const char* row_word() const override { return "row"; }

  private:
    void open();
    void measure();
    const SheetCell* find(std::size_t i) const;

    std::istream& in_;
    std::string bytes_;
    std::optional<std::string> name_;
    std::optional<WorkbookSheet> sheet_;
    std::size_t first_column_ = 1;
    std::size_t row_begins_ = 0; ///< positions among the sheet's cells
    std::size_t row_ends_ = 0;
    std::vector<std::string_view> cells_;
};

} // namespace inkturn
