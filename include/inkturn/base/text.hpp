#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace inkturn {

/// Whether well-formed UTF-8 holds a control character, ASCII or C1.
bool has_control_character(std::string_view text) noexcept;

/// Whether the piece occurs in the text.
bool contains(std::string_view text, std::string_view piece) noexcept;

/// How many letters (bytes) must be inserted, deleted or changed to turn one text into the other
/// (Levenshtein's distance).
std::size_t letters_changed(std::string_view a, std::string_view b);

/// Throws Error unless the text is printable UTF-8 of at most `max` characters; `what` names it.
void check_printable(std::string_view text, std::size_t max, const std::string& what);

} // namespace inkturn
