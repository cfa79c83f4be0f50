#include "inkturn/base/text.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <numeric>
#include <vector>

namespace inkturn {
namespace {

unsigned byte_at(std::string_view text, std::size_t i) {
    return static_cast<unsigned char>(text[i]);
}

bool continues(std::string_view text, std::size_t i) {
    return i < text.size() && (byte_at(text, i) & 0xC0) == 0x80;
}

/// The length of the well-formed character at `i`, 0 where there is none.
std::size_t character_length(std::string_view text, std::size_t i) {
    const unsigned first = byte_at(text, i);
    if (first < 0x80)
        return 1;
    if (first >= 0xC2 && first <= 0xDF)
        return continues(text, i + 1) ? 2 : 0;
    if (!continues(text, i + 1) || !continues(text, i + 2))
        return 0;
    const unsigned second = byte_at(text, i + 1);
    if (first >= 0xE0 && first <= 0xEF) {
        const bool overlong = first == 0xE0 && second < 0xA0;
        const bool surrogate = first == 0xED && second > 0x9F;
        return overlong || surrogate ? 0 : 3;
    }
    if (first < 0xF0 || first > 0xF4 || !continues(text, i + 3))
        return 0;
    const bool overlong = first == 0xF0 && second < 0x90;
    const bool beyond = first == 0xF4 && second > 0x8F;
    return overlong || beyond ? 0 : 4;
}

} // namespace

bool is_utf8(std::string_view text) noexcept {
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = character_length(text, i);
        if (length == 0)
            return false;
        i += length;
    }
    return true;
}

std::size_t character_count(std::string_view text) noexcept {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

bool has_control_character(std::string_view text) noexcept {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool c1 = byte_at(text, i) == 0xC2 && i + 1 < text.size() && byte_at(text, i + 1) < 0xA0;
        if (byte_at(text, i) < 0x20 || byte_at(text, i) == 0x7F || c1)
            return true;
    }
    return false;
}

std::size_t letters_changed(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t changed = diagonal + (a[i] == b[j] ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({row[j] + 1, row[j + 1] + 1, changed});
        }
    }
    return row[b.size()];
}

void check_printable(std::string_view text, std::size_t most, const std::string& what) {
    if (!is_utf8(text))
        throw Error(what + ": the text is not valid UTF-8");
    if (has_control_character(text))
        throw Error(what + ": no line breaks or control characters, please");
    if (character_count(text) > most)
        throw Error(what + ": at most " + std::to_string(most) + " characters");
}

} // namespace inkturn
