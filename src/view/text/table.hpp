#pragma once

#include <cstddef>
#include <iosfwd>
#include <string>
#include <vector>

namespace inkturn {

/// Rows of text in aligned columns, two blanks apart, at most 80 columns wide: if the cells need more, the
/// columns that may be cut or wrapped get narrower. A wrapped cell is broken after `;`, an item that is too
/// long at its blanks; a word that is too long stays whole, so put such a column last.
class Table {
  public:
    static constexpr std::size_t full_width = 80;

    enum class Align { left, right, left_may_be_cut, left_wrapped };
    struct Column {
        std::string title;
        Align align = Align::left;
        bool if_any = false; ///< left out while all its cells are empty
    };

    explicit Table(std::vector<Column> columns);

    /// One cell per column; each is made visible() here.
    void add_row(std::vector<std::string> cells);

    friend std::ostream& operator<<(std::ostream& out, const Table& whole);

  private:
    Table without_empty_columns() const;

    std::vector<Column> columns_;
    std::vector<std::vector<std::string>> rows_;
};

} // namespace inkturn
