#pragma once

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string_view>

namespace inkturn {

/// Writes CSV (RFC 4180, but LF ends a line) in UTF-8, field by field. Texts are quoted; one that a
/// spreadsheet could take for a formula because it starts with `=`, `+`, `-`, `@`, a tab or a carriage
/// return, gets an apostrophe before it (OWASP, CSV Injection). Numbers are not quoted.
class CsvWriter {
  public:
    explicit CsvWriter(std::ostream& out) : out_(out) {}

    CsvWriter& text(std::string_view field);
    CsvWriter& number(std::size_t field);
    CsvWriter& tenths(std::size_t field);                ///< 14 is written 1.4
    CsvWriter& signed_number(std::optional<long> field); ///< nothing: an empty field
    void end_row();

  private:
    void separate();

    std::ostream& out_;
    bool in_row_ = false;
};

} // namespace inkturn
