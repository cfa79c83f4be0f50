#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace inkturn {

/// Whether there is a control character of ASCII or of C1 in well-formed UTF-8.
bool has_control_character(std::string_view text) noexcept;

/// Whether the piece stands somewhere in the text.
bool contains(std::string_view text, std::string_view piece) noexcept;

/// How many letters (bytes) must be put in, left out or changed to turn one text into the other
/// (Levenshtein's distance).
std::size_t letters_changed(std::string_view a, std::string_view b);

/// Throws Error unless the text is printable UTF-8 of at most `max` characters; `what` names it.
void check_printable(std::string_view text, std::size_t max, const std::string& what);

} // namespace inkturn
