#include "inkturn/base/utf8.hpp"

#include <utf8proc.h>

#include <algorithm>

namespace inkturn {
namespace {

constexpr char32_t last_character = 0x10FFFF;

/// Rules out what a longer form would hide, surrogates and what lies beyond U+10FFFF (RFC 3629 §4).
bool may_follow(unsigned char first, unsigned char second) {
    const unsigned char low = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
    const unsigned char high = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
    return second >= low && second <= high;
}

} // namespace

std::size_t utf8_length(char first) noexcept {
    const auto byte = static_cast<unsigned char>(first);
    if (byte < 0x80)
        return 1;
    if (byte < 0xC2 || byte > 0xF4)
        return 0;
    return byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
}

Utf8Sequence utf8_sequence(std::string_view bytes) noexcept {
    const std::size_t length = utf8_length(bytes.front());
    if (length == 0)
        return Utf8Sequence::bad;
    for (std::size_t i = 1; i < length; ++i) {
        if (i == bytes.size())
            return Utf8Sequence::cut;
        const bool follows =
            i == 1 ? may_follow(static_cast<unsigned char>(bytes[0]), static_cast<unsigned char>(bytes[1]))
                   : continues_character(bytes[i]);
        if (!follows)
            return Utf8Sequence::bad;
    }
    return Utf8Sequence::whole;
}

std::optional<Utf8Character> utf8_character(std::string_view text, std::size_t position) noexcept {
    const std::string_view bytes = text.substr(position);
    if (utf8_sequence(bytes) != Utf8Sequence::whole)
        return std::nullopt;
    const std::size_t length = utf8_length(bytes.front());
    constexpr unsigned char first_bits[] = {0x7F, 0x1F, 0x0F, 0x07};
    char32_t code = static_cast<unsigned char>(bytes.front()) & first_bits[length - 1];
    for (const char c : bytes.substr(1, length - 1))
        code = code << 6 | (static_cast<unsigned char>(c) & 0x3F);
    return Utf8Character{code, length};
}

void append_utf8(std::string& text, char32_t code) {
    const auto append = [&](char32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
    const auto append_next = [&](unsigned shift) { append(0x80 | (code >> shift & 0x3F)); };
    const bool is_surrogate = code >= 0xD800 && code < 0xE000;
    if (is_surrogate || code > last_character)
        return;
    if (code < 0x80) {
        append(code);
    } else if (code < 0x800) {
        append(0xC0 | code >> 6);
        append_next(0);
    } else if (code < 0x10000) {
        append(0xE0 | code >> 12);
        append_next(6);
        append_next(0);
    } else {
        append(0xF0 | code >> 18);
        append_next(12);
        append_next(6);
        append_next(0);
    }
}

bool is_utf8(std::string_view text) noexcept {
    for (std::size_t i = 0; i < text.size(); i += utf8_length(text[i]))
        if (utf8_sequence(text.substr(i)) != Utf8Sequence::whole)
            return false;
    return true;
}

std::size_t character_count(std::string_view text) noexcept {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return !continues_character(c); }));
}

std::size_t column_count(char32_t code) noexcept {
    const auto character = static_cast<utf8proc_int32_t>(code);
    if (utf8proc_category(character) == UTF8PROC_CATEGORY_MC)
        return 1; // a mark that has a place beside its letter
    return static_cast<std::size_t>(utf8proc_charwidth(character));
}

} // namespace inkturn
