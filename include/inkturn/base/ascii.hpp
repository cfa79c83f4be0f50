#pragma once

#include <string>
#include <string_view>

namespace inkturn {

// Classes of ASCII alone, whatever the locale: what labels, codes and the forms of files are made of.

constexpr bool is_ascii(char c) noexcept {
    return static_cast<unsigned char>(c) < 0x80;
}
constexpr bool is_digit(char c) noexcept {
    return c >= '0' && c <= '9';
}
constexpr bool is_lower(char c) noexcept {
    return c >= 'a' && c <= 'z';
}
constexpr bool is_upper(char c) noexcept {
    return c >= 'A' && c <= 'Z';
}
constexpr bool is_letter(char c) noexcept {
    return is_lower(c) || is_upper(c);
}
constexpr bool is_letter_or_digit(char c) noexcept {
    return is_letter(c) || is_digit(c);
}

constexpr char lower(char c) noexcept {
    return is_upper(c) ? static_cast<char>(c - 'A' + 'a') : c;
}
constexpr char upper(char c) noexcept {
    return is_lower(c) ? static_cast<char>(c - 'a' + 'A') : c;
}

/// The text with its ASCII letters in lower case; everything else stays.
std::string lower_case(std::string_view text);

} // namespace inkturn
