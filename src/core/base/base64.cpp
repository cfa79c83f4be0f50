#include "inkturn/base/base64.hpp"

#include <array>
#include <cstddef>
#include <cstdint>

namespace inkturn {
namespace {

constexpr std::string_view base64_digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr std::uint8_t no_digit = 64;

constexpr std::array<std::uint8_t, 256> values_of_digits() {
    std::array<std::uint8_t, 256> values{};
    for (auto& value : values)
        value = no_digit;
    for (std::size_t i = 0; i < base64_digits.size(); ++i)
        values[static_cast<unsigned char>(base64_digits[i])] = static_cast<std::uint8_t>(i);
    return values;
}
constexpr std::array<std::uint8_t, 256> base64_values = values_of_digits();

/// Appends one to three bytes as four digits, padded where bytes are missing.
void append_group(std::string& text, std::string_view bytes) {
    std::uint32_t group = 0;
    for (std::size_t i = 0; i < 3; ++i)
        group = group << 8 | (i < bytes.size() ? static_cast<unsigned char>(bytes[i]) : 0U);
    for (std::size_t i = 0; i < 4; ++i)
        text += i <= bytes.size() ? base64_digits[group >> (18 - 6 * i) & 0x3F] : '=';
}

/// Appends the bytes of four digits, `missing` of them padding; false where one is no digit.
bool append_bytes(std::string& bytes, std::string_view group, std::size_t missing) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        const std::uint8_t digit =
            i < 4 - missing ? base64_values[static_cast<unsigned char>(group[i])] : std::uint8_t{0};
        if (digit == no_digit)
            return false;
        value = value << 6 | digit;
    }
    for (std::size_t i = 0; i < 3 - missing; ++i)
        bytes += static_cast<char>(value >> (16 - 8 * i) & 0xFF);
    return true;
}

} // namespace

void append_base64(std::string& text, std::string_view bytes) {
    text.reserve(text.size() + (bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3)
        append_group(text, bytes.substr(i, 3));
}

std::string base64(std::string_view bytes) {
    std::string text;
    append_base64(text, bytes);
    return text;
}

std::optional<std::string> read_base64(std::string_view text) {
    std::string bytes;
    bytes.reserve(text.size() / 4 * 3);
    for (std::size_t i = 0; i < text.size(); i += 4) {
        const std::string_view group = text.substr(i, 4);
        const bool is_last = i + 4 >= text.size();
        const std::size_t missing = !is_last || group.size() < 4 || group[3] != '=' ? 0
                                    : group[2] == '='                               ? 2
                                                                                    : 1;
        if (group.size() < 4 || !append_bytes(bytes, group, missing))
            return std::nullopt;
    }
    if (text.size() >= 4 && text.back() == '=' &&
        base64(bytes).compare(text.size() - 4, 4, text.substr(text.size() - 4)) != 0)
        return std::nullopt; // bits that no byte has
    return bytes;
}

} // namespace inkturn
