#pragma once

#include "exchange/csv/csv.hpp"
#include "exchange/csv/problem_list.hpp"
#include "inkturn/base/error.hpp"

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The text without the spaces and tabs at its ends.
std::string without_blanks(std::string_view text);

/// A CSV file as a header and rows with as many cells. Problems with its shape go into the list, and callers
/// can add those they find in a cell, with its place.
class CsvTable {
  public:
    /// Reads the header. Throws CsvError, also if the file is empty. The stream and the list must
    /// outlive the table.
    CsvTable(std::istream& in, const CsvOptions& options, ProblemList& problems);

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

    /// Goes to the next row; false at the end. A row with more or fewer cells than the header is a
    /// problem and skipped; a row of empty cells is skipped like an empty line.
    bool next();

    std::string_view cell(std::size_t column) const { return reader_.fields()[column]; }
    std::size_t line() const { return reader_.line(); }
    std::size_t ragged_rows() const { return ragged_rows_; }

    /// Adds a problem to the list: with a cell of the current row, with that row or with the header.
    void report(std::size_t column, std::string message);
    void report_row(std::string message);
    void report_header(std::string message);

    /// Turns an Error that `work` throws into a problem with the cell; false if there was one.
    template <typename Work>
    bool in_cell(std::size_t column, Work work) {
        try {
            work();
            return true;
        } catch (const Error& error) {
            report(column, error.what());
            return false;
        }
    }

  private:
    CsvReader reader_;
    ProblemList& problems_;
    std::vector<std::string> names_;
    std::size_t header_line_ = 0;
    std::size_t ragged_rows_ = 0;
};

} // namespace inkturn
