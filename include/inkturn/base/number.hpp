#pragma once

#include <optional>
#include <string_view>

namespace inkturn {

/// Reads a whole number written in decimal digits alone: no sign, point, exponent or blank; leading zeros
/// mean nothing (`010` is ten). Nothing where the text is anything else or the number is above `max`.
std::optional<int> read_whole_number(std::string_view text, int max) noexcept;

/// The same as read_whole_number(), but with a lower end too and an Error that says what was expected:
/// "`what` '`text`': give a whole number from `min` to `max`".
int parse_whole_number(std::string_view text, int min, int max, std::string_view what);

} // namespace inkturn
