#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace inkturn {

/// The number in at most four bytes, the most significant first.
inline std::uint32_t big_endian(std::string_view bytes) {
    std::uint32_t number = 0;
    for (const char byte : bytes)
        number = number << 8 | static_cast<unsigned char>(byte);
    return number;
}

/// The number as `size` bytes, 1 to 4, the most significant first; higher bits are cut off.
inline std::string big_endian_bytes(std::uint32_t number, std::size_t size) {
    std::string bytes(size, '\0');
    for (std::size_t i = 0; i < size; ++i)
        bytes[size - 1 - i] = static_cast<char>(static_cast<unsigned char>(number >> 8 * i & 0xFF));
    return bytes;
}

inline bool begins_with(std::string_view bytes, std::string_view start) {
    return bytes.substr(0, start.size()) == start;
}

} // namespace inkturn
