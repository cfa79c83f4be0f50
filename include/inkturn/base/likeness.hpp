#pragma once

#include <string>
#include <string_view>

namespace inkturn {

// How codes that were typed by different hands are compared. The texts are UTF-8; one that isn't is compared
// as it is.

/// The text with its accents composed: Unicode's normalization form C (UAX #15).
std::string composed(std::string_view text);

/// The same for two codes that a reader would hardly tell apart: without case, leading zeros of a number,
/// and characters that show nothing (bidirectional ones among them); accents composed, blanks as one space.
std::string likeness(std::string_view code);

/// Whether the text holds a character that shows nothing, such as a bidirectional mark.
bool has_invisible_character(std::string_view text);

/// Whether the character, whose code this is, shows nothing; not those that join letters or choose their
/// form, which some scripts need.
bool shows_nothing(std::string_view character, char32_t code);

/// Throws Error where the text holds a character that shows_nothing(); `what` names it.
void check_is_visible(std::string_view text, const std::string& what);

} // namespace inkturn
