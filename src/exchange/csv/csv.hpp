#pragma once

#include "inkturn/base/problem.hpp"

#include <cstddef>
#include <exception>
#include <functional>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace inkturn {

/// How the bytes of a CSV file are to be read where the file itself doesn't say.
struct CsvOptions {
    std::optional<char> delimiter; ///< `,` `;` or tab; nothing: sniffed from the header
    bool windows_1252 = false;     ///< bytes are windows-1252 and not UTF-8

    /// Told now and then how many bytes have been read.
    std::function<void(std::size_t bytes)> progress;

    std::size_t chunk = 256 * 1024; ///< bytes read at a time, above 0
};

/// A problem that stops the reading of a file: what follows it can't be told apart.
class CsvError : public std::exception {
  public:
    explicit CsvError(Problem problem) : problem_(std::move(problem)) {}
    const Problem& problem() const noexcept { return problem_; }
    const char* what() const noexcept override { return problem_.message.c_str(); }

  private:
    Problem problem_;
};

/// Reads CSV (RFC 4180) record by record, in memory that does not grow with the file. Accepts UTF-8 with
/// or without BOM, UTF-16 with BOM, LF or CRLF. Spaces belong to the field. Lines that are wholly empty
/// are passed over. Throws CsvError at a quote that is not closed or stands inside a bare field, text
/// after a closing quote, a carriage return alone, a record above a mebibyte, a header whose delimiter is
/// a tie, and where the text has a fault (encoding.hpp).
class CsvReader {
  public:
    /// The stream must outlive the reader.
    CsvReader(std::istream& in, CsvOptions options);
    ~CsvReader();
    CsvReader(const CsvReader&) = delete;
    CsvReader& operator=(const CsvReader&) = delete;

    /// Goes to the next record; false at the end. The first record is the header: its text chooses the
    /// delimiter where none was given.
    bool next();

    /// The record's fields, UTF-8, valid until the next call of next().
    const std::vector<std::string_view>& fields() const;

    /// The line on which field `i` of the record starts, and its column in characters, both from 1. They
    /// are counted anew at each call, all but line(0).
    std::size_t line(std::size_t i = 0) const;
    std::size_t column(std::size_t i) const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace inkturn
