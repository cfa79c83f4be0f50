#pragma once

#include <cstddef>
#include <iosfwd>
#include <string>
#include <vector>

namespace inkturn {

/// Rows of text in aligned columns, two blanks apart, at most width() columns wide: if the cells need more,
/// the columns that may be cut or wrapped get narrower. A wrapped cell is broken after `;`, an item that is
/// too long at its blanks; a word that is too long stays whole, so put such a column last. Where they can't
/// get narrow enough for a terminal below 80 columns, each row is a paragraph that names its cells.
class Table {
  public:
    static constexpr std::size_t full_width = 80; ///< of text, and of tables off a terminal

    static std::size_t width() noexcept { return width_; }
    /// For all tables of the program, to which the terminal's width is the same; 20 or more.
    static void set_width(std::size_t columns) noexcept { width_ = columns; }

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
    void write_as_paragraphs(std::ostream& out) const;

    static inline std::size_t width_ = full_width;

    std::vector<Column> columns_;
    std::vector<std::vector<std::string>> rows_;
};

/// Columns for text that is not a table: 80, or what a narrower terminal has.
inline std::size_t text_width() noexcept {
    return Table::width() < Table::full_width ? Table::width() : Table::full_width;
}

} // namespace inkturn
