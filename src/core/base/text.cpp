#include "inkturn/base/text.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <numeric>
#include <vector>

namespace inkturn {
namespace {

unsigned byte_at(std::string_view text, std::size_t i) {
    return static_cast<unsigned char>(text[i]);
}

} // namespace

bool has_control_character(std::string_view text) noexcept {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool c1 = byte_at(text, i) == 0xC2 && i + 1 < text.size() && byte_at(text, i + 1) < 0xA0;
        if (byte_at(text, i) < 0x20 || byte_at(text, i) == 0x7F || c1)
            return true;
    }
    return false;
}

bool contains(std::string_view text, std::string_view piece) noexcept {
    return text.find(piece) != std::string_view::npos;
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

void check_printable(std::string_view text, std::size_t max, const std::string& what) {
    if (!is_utf8(text))
        throw Error(what + ": the text is not valid UTF-8");
    if (has_control_character(text))
        throw Error(what + ": no line breaks or control characters, please");
    if (character_count(text) > max)
        throw Error(what + ": at most " + std::to_string(max) + " characters");
}

} // namespace inkturn
