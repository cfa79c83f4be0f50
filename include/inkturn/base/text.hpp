#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace inkturn {

/// Whether the bytes are well-formed UTF-8 (RFC 3629: no overlong forms, no surrogates).
bool is_utf8(std::string_view text) noexcept;

/// The characters (code points) of well-formed UTF-8.
std::size_t character_count(std::string_view text) noexcept;

/// Whether there is a control character of ASCII or of C1 in well-formed UTF-8.
bool has_control_character(std::string_view text) noexcept;

/// How many letters (bytes) must be put in, left out or changed to turn one text into the other
/// (Levenshtein's distance).
std::size_t letters_changed(std::string_view a, std::string_view b);

/// Throws Error unless the text is printable UTF-8 of at most `most` characters; `what` names it.
void check_printable(std::string_view text, std::size_t most, const std::string& what);

} // namespace inkturn
