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

/// A CSV file as a header with rows of as many cells. Problems with its shape go into the list, and those
/// that others find in a cell can be put there with its place.
class CsvTable {
  public:
    /// Reads the header. Throws CsvError, also where the file is empty. The stream and the list must
    /// outlive the table.
    CsvTable(std::istream& in, const CsvOptions& options, ProblemList& problems);

    /// The names of the columns in lower case, without the blanks at their ends.
    const std::vector<std::string>& names() const { return names_; }
    /// The same as they are written, while the table is still at its header.
    std::string_view written_name(std::size_t column) const { return cell(column); }

    /// The first column of this name.
    std::optional<std::size_t> find(std::string_view name) const;

    /// Where each of the wanted columns is, in their order; nothing for one that isn't there. Problems: a
    /// name that is there twice, one that is not wanted, and the first `required` ones if they are missing.
    std::vector<std::optional<std::size_t>> match(const std::vector<std::string_view>& wanted,
                                                  std::size_t required);

    /// Goes to the next row; false at the end. A row with more or fewer cells than the header is a
    /// problem and passed over; a row whose every cell is empty is passed over as an empty line is.
    bool next();

    std::string_view cell(std::size_t column) const { return reader_.fields()[column]; }
    std::size_t line() const { return reader_.line(); }
    std::size_t ragged_rows() const { return ragged_rows_; }

    /// Puts a problem into the list: with a cell of the row at hand, with that row or with the header.
    void report(std::size_t column, std::string message);
    void report_row(std::string message);
    void report_header(std::string message);

    /// Makes an Error of what is done a problem with the cell; false where there was one.
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
