#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// How a workbook shows a number, so far as it matters to what the cell says (ECMA-376 part 1, 18.8.30 and
/// 18.8.31).
class NumberFormat {
  public:
    NumberFormat() = default; ///< General
    explicit NumberFormat(std::string_view code);
    /// Those that need no code in the file; General for any other.
    static NumberFormat built_in(unsigned id);

    /// A day as ISO 8601 with the time of day, if one is shown; a time as `09:30` or `09:30:15`; a
    /// percentage; any other number as shown_or_plain() says. Nothing where it is to be shown as a day or a
    /// time and is none. `from_1904`: the day 0 is 1904-01-01, not the one before 1900-01-01.
    std::optional<std::string> text(double number, bool from_1904) const;

  private:
    friend class NumberFormatReader;

    enum class Shows : unsigned char { plain, code, percentage, day, time, day_and_time };

    Shows shows_ = Shows::plain;
    std::string before_; ///< literally in front of the digits of a code
    std::string after_;
    std::size_t min_digits_ = 0; ///< in front of the point
    std::size_t decimals_ = 0;
};

/// All of a number, to the 15 digits that spreadsheets keep: `4`, `2.5`, `1e+20`.
std::string plain_text(double number);

/// A whole number with the leading zeros and the letters of a code, if that is how it is shown (`007`,
/// `K07`); any other as shown, if that has all of its decimals (`1.10`); otherwise plain_text(). So nothing
/// that a format rounds, groups or decorates changes what a cell says.
std::string shown_or_plain(double number, std::string_view shown);

/// Reads a number as XML writes it; nothing for anything else.
std::optional<double> read_xml_number(std::string_view text) noexcept;

/// `09:30`, or `09:30:15` where there are seconds.
std::string time_of_day(long long seconds);

} // namespace inkturn
