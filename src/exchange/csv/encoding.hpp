#pragma once

#include "exchange/csv/csv.hpp"

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Why a file's text stops before its end.
struct TextFault {
    bool whole_file; ///< concerns the file, not the place where the text stops
    std::string message;
};

/// Turns the bytes of a stream into UTF-8 without NULs, piece by piece. A byte order mark says UTF-8 or
/// UTF-16 and is left out; without one the options say. Faults: a NUL, bytes that are not a character,
/// UTF-16 without a byte order mark, a workbook in the form of one XML document, a stream that fails.
class TextSource {
  public:
    /// The stream must outlive the source. `start`: bytes, at most four, that were taken from it already.
    TextSource(std::istream& in, const CsvOptions& options, std::string_view start = {});

    /// The next piece, in whole characters, valid until the next call. Empty at the end and at a fault.
    std::string_view next();

    /// What stopped the text right after the last piece; nothing at the end of the file.
    const std::optional<TextFault>& fault() const { return fault_; }

    /// At the end: whether the bytes were read as windows-1252, but are UTF-8 too and not ASCII alone.
    bool may_be_utf_8() const { return has_utf_8_ && !has_other_ && cut_.empty(); }

  private:
    enum class Encoding { unknown, utf_8, utf_16_le, utf_16_be, windows_1252 };

    void read_bytes();
    void recognise();
    std::string head();
    std::string_view decode(std::string_view bytes);
    std::string_view decode_utf_8(std::string_view bytes);
    std::string_view decode_utf_16(std::string_view bytes);
    std::string_view decode_windows_1252(std::string_view bytes);
    void look_for_utf_8(std::string_view bytes);
    void stop(std::string message, bool whole_file = false);

    std::istream& in_;
    CsvOptions options_;
    Encoding encoding_ = Encoding::unknown;
    std::vector<char> bytes_;
    std::size_t used_ = 0;  ///< of bytes_, in the pieces already returned
    std::size_t count_ = 0; ///< of bytes_ that were read
    std::size_t total_ = 0;
    bool at_end_ = false;
    std::string text_; ///< the current piece, unless it is part of bytes_
    std::optional<TextFault> fault_;
    bool has_utf_8_ = false; ///< a character of several bytes; these three are for windows-1252 alone
    bool has_other_ = false; ///< bytes that are not UTF-8
    std::string cut_;        ///< the start of a character that the next piece may complete
};

} // namespace inkturn
