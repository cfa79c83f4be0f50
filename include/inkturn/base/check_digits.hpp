#pragma once

#include <string>
#include <string_view>

namespace inkturn {

/// The two check digits of the system MOD 97-10 of ISO/IEC 7064:2003 for a text of printable ASCII, in which
/// each character stands for two digits, its code less 32 (`A` is 33). They change with any one character,
/// and with any two that change places less than 48 apart; of other changes they miss one in 97. Throws Error
/// for other text.
std::string check_digits(std::string_view text);

/// The same of a string of digits, as the standard has it: `794` has `44`.
std::string mod_97_10(std::string_view digits);

} // namespace inkturn
