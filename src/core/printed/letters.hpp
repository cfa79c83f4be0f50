#pragma once

namespace inkturn::printed {

// ASCII alone: what labels and codes are made of.

inline bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
inline bool is_lower(char c) {
    return c >= 'a' && c <= 'z';
}
inline bool is_upper(char c) {
    return c >= 'A' && c <= 'Z';
}

} // namespace inkturn::printed
