#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

// UTF-8 as RFC 3629 defines it: no overlong forms, no surrogates, nothing above U+10FFFF.

/// Whether the byte continues a character that began before it.
constexpr bool continues_character(char byte) noexcept {
    return (static_cast<unsigned char>(byte) & 0xC0) == 0x80;
}

/// The bytes of a character that begins with this one, 1 to 4; 0 if no character does.
std::size_t utf8_length(char first) noexcept;

enum class Utf8Sequence {
    whole,
    cut, ///< well-formed so far, but the bytes end within it
    bad
};

/// What the bytes begin with; they are not empty.
Utf8Sequence utf8_sequence(std::string_view bytes) noexcept;

struct Utf8Character {
    char32_t code;
    std::size_t length; ///< bytes
};

/// The character that begins at `position`, which lies within the text; nothing where none does.
std::optional<Utf8Character> utf8_character(std::string_view text, std::size_t position) noexcept;

/// Appends the character, or nothing if Unicode has no such character (a surrogate, above U+10FFFF).
void append_utf8(std::string& text, char32_t code);

bool is_utf8(std::string_view text) noexcept;

/// The characters (code points) of well-formed UTF-8.
std::size_t character_count(std::string_view text) noexcept;

/// The columns of a terminal that a printable character takes, 0 to 2, as Unicode has it, whatever the
/// locale.
std::size_t column_count(char32_t code) noexcept;

} // namespace inkturn
