#pragma once

#include "inkturn/base/error.hpp"
#include "inkturn/base/problem.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace inkturn {

/// A problem after which a file can't be read any further.
class UnreadableFile : public Error {
  public:
    explicit UnreadableFile(Problem problem) : Error(problem.message), problem_(std::move(problem)) {}
    const Problem& problem() const noexcept { return problem_; }

  private:
    Problem problem_;
};

/// A file's rows of cells, one after another, whatever kind of file they come from.
class Rows {
  public:
    Rows() = default;
    Rows(const Rows&) = delete;
    Rows& operator=(const Rows&) = delete;
    virtual ~Rows() = default;

    /// Goes to the next row; false at the end. Throws UnreadableFile.
    virtual bool next() = 0;

    /// The row's cells, UTF-8, valid until the next call of next(). Always the same vector.
    virtual const std::vector<std::string_view>& cells() const = 0;

    /// The line on which cell `i` of the row starts and its column in it, or in a workbook its row and
    /// column; both from 1.
    virtual std::size_t line(std::size_t i = 0) const = 0;
    virtual std::size_t column(std::size_t i) const = 0;

    /// What a workbook calls cell `i` of the row, such as B7; empty for text.
    virtual std::string cell_name(std::size_t /*cell*/) const { return {}; }

    /// What a workbook calls the first cell of the row with this number; empty for text.
    virtual std::string row_name(std::size_t /*line*/) const { return {}; }

    /// Why cell `i` has no value, such as a formula that came to nothing, with the remedy; empty if it has
    /// one.
    virtual std::string fault(std::size_t /*cell*/) const { return {}; }

    /// What the file's rows are called: `line` in text, `row` in a workbook.
    virtual const char* row_word() const { return "line"; }

    /// Once the rows have ended: whether they were read in an encoding that the file's bytes speak against.
    virtual bool encoding_is_doubtful() const { return false; }
};

} // namespace inkturn
