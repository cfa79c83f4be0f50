#pragma once

#include "exchange/table/rows.hpp"

#include <cstddef>
#include <functional>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// How to read a CSV file's bytes if the file itself doesn't say.
struct CsvOptions {
    std::optional<char> delimiter; ///< `,` `;` or tab; nothing: taken from the header
    bool windows_1252 = false;     ///< bytes are windows-1252, not UTF-8

    /// Called now and then with the number of bytes read.
    std::function<void(std::size_t bytes)> progress;

    std::size_t chunk = std::size_t{256} * 1024; ///< bytes read at a time, above 0
};

/// Reads CSV (RFC 4180) record by record, in memory that doesn't grow with the file. Accepts UTF-8 with
/// or without BOM, UTF-16 with BOM, LF or CRLF. Spaces belong to the field. Empty lines are skipped.
/// Throws UnreadableFile at a quote that is not closed or is inside a bare field, text after a closing quote,
/// a lone carriage return, a record above a mebibyte, a header with a tie of delimiters, and a fault in the
/// text (encoding.hpp).
class CsvReader : public Rows {
  public:
    /// The stream must outlive the reader. `start`: bytes of the file, at most four, that were taken from it
    /// already.
    CsvReader(std::istream& in, const CsvOptions& options, std::string_view start = {});
    ~CsvReader() override;

    /// Goes to the next record; false at the end. If no delimiter was given, a first line such as `sep=;`
    /// settles it, or else the first line with any; the former is no record.
    bool next() override;

    const std::vector<std::string_view>& cells() const override;

    /// Columns are in characters. Both are counted anew at each call, all but line(0).
    std::size_t line(std::size_t i = 0) const override;
    std::size_t column(std::size_t i) const override;

    bool encoding_is_doubtful() const override;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace inkturn
