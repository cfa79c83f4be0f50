#pragma once

#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/base/error.hpp"

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace inkturn {

/// The text without the blanks at its ends.
std::string without_blanks(std::string_view text);

/// The same for what people know a thing by, such as a topic. Throws Error if it holds a character that shows
/// nothing.
std::string name_in(std::string_view cell);

/// A file's rows as a header and rows with as many cells. Problems with its shape go into the list, and
/// callers can add those they find in a cell, with its place.
class HeadedTable {
  public:
    /// Reads the header. Throws UnreadableFile, also if the file is empty. Rows and list must outlive the
    /// table.
    HeadedTable(Rows& rows, ProblemList& problems);

    using IsHeader = bool (*)(const std::vector<std::string_view>& cells);
    /// The same where rows may stand above the header: it is the first one that `is_header` takes, among the
    /// first max_rows_above + 1. Throws UnreadableFile with this message if there is none, or with what is
    /// said of a row that could be a header but for what it lacks.
    struct NearlyHeader {
        IsHeader is_one = nullptr;
        const char* lacks = "";
    };
    HeadedTable(Rows& rows, ProblemList& problems, IsHeader is_header, const std::string& no_header,
                NearlyHeader nearly);
    HeadedTable(Rows& rows, ProblemList& problems, IsHeader is_header, const std::string& no_header)
        : HeadedTable(rows, problems, is_header, no_header, NearlyHeader{}) {}
    static constexpr std::size_t max_rows_above = 20;

    std::size_t rows_above() const { return rows_above_; }
    /// The cells of the row right above the header; empty if there is none.
    const std::vector<std::string>& row_above() const { return row_above_; }

    /// The names of the columns in lower case, without the blanks at their ends.
    const std::vector<std::string>& names() const { return names_; }
    /// The same as written, while the table is still at its header.
    std::string_view written_name(std::size_t column) const { return cell(column); }

    /// The first column of this name.
    std::optional<std::size_t> find(std::string_view name) const;

    /// Where each of the wanted columns is, in their order; nothing for one that isn't there. Problems: a
    /// name that appears twice, one that is not wanted, and the first `required` ones if they are missing.
    std::vector<std::optional<std::size_t>> match(const std::vector<std::string_view>& wanted,
                                                  std::size_t required);
    /// The same, where what becomes of a name that is not wanted is up to the caller.
    std::vector<std::optional<std::size_t>> match(const std::vector<std::string_view>& wanted,
                                                  std::size_t required,
                                                  const std::function<void(std::size_t column)>& not_wanted);
    /// Takes the column for one of this name.
    void rename(std::size_t column, const std::string& name) { names_[column] = name; }
    /// A problem for each of these columns that holds anything, from the current row on: they have no
    /// heading.
    void expect_blank(std::vector<std::size_t> columns);

    /// Keeps rows apart that are shorter than the header and are notes below a table.
    void keep_notes_apart(bool (*is_note)(const std::vector<std::string_view>& cells)) { is_note_ = is_note; }
    /// The notes met so far, each as a problem with its place and what it says.
    const std::vector<Problem>& notes() const { return notes_; }

    /// Goes to the next row; false at the end. A row with more or fewer cells than the header is a
    /// problem and skipped, unless those are blank and stand at the end of either; a row of blank cells is
    /// skipped like an empty line.
    bool next();

    std::string_view cell(std::size_t column) const { return cells_[column]; }
    /// For a column without a name, which a row may lack at its end.
    std::string_view cell_if_there(std::size_t column) const {
        return column < cells_.size() ? cells_[column] : std::string_view();
    }
    std::size_t line() const { return rows_.line(); }
    std::size_t ragged_rows() const { return ragged_rows_; }

    /// `line 12` in text, `row 12` in a workbook.
    std::string row_text(std::size_t line) const;

    /// Throws Error if a cell of the current row has no value, such as a formula that came to nothing.
    void check_has_value(std::size_t column) const;

    /// A problem with a cell of the current row, in no list yet. Of a cell without a value that is what is
    /// said.
    Problem problem_in(std::size_t column, std::string message) const;

    /// Adds a problem to the list: with a cell of the current row, with that row or with the header.
    void report(std::size_t column, std::string message);
    void report_row(std::string message);
    void report_header(std::string message);

    /// Turns an Error that `work` throws into a problem with the cell; false if there was one.
    template <typename Work>
    bool in_cell(std::size_t column, Work work) {
        try {
            check_has_value(column);
            work();
            return true;
        } catch (const Error& error) {
            report(column, error.what());
            return false;
        }
    }

  private:
    void take_header();
    bool has_width_of_header() const;
    bool take_note();
    void check_blank_columns();

    Rows& rows_;
    const std::vector<std::string_view>& cells_; ///< of the current row
    ProblemList& problems_;
    std::vector<std::string> names_;
    std::size_t header_line_ = 0;
    std::string header_cell_; ///< in a workbook, its first
    std::size_t ragged_rows_ = 0;
    std::size_t rows_above_ = 0;
    std::vector<std::string> row_above_;
    std::size_t named_width_ = 0; ///< up to the last column with a name
    std::vector<std::size_t> blank_columns_;
    bool (*is_note_)(const std::vector<std::string_view>& cells) = nullptr;
    std::vector<Problem> notes_;
};

} // namespace inkturn
