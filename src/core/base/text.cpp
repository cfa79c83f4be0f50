#include "inkturn/base/text.hpp"

#include "inkturn/base/ascii.hpp"
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

/// `p9` and `p12`, which no slip turns into each other; `K7` and `K07` have the same number.
bool differ_in_number(std::string_view a, std::string_view b) {
    const auto parted = [](std::string_view text) {
        std::pair<std::string, std::string> number_and_rest;
        for (const char c : text) {
            std::string& part = is_digit(c) ? number_and_rest.first : number_and_rest.second;
            if (!(is_digit(c) && c == '0' && part.empty()))
                part += c;
        }
        return number_and_rest;
    };
    const auto [number_a, rest_a] = parted(a);
    const auto [number_b, rest_b] = parted(b);
    return rest_a == rest_b && number_a != number_b;
}

/// letters_changed(), with two neighbours that changed places as one.
std::size_t slips_between(const std::string& a, const std::string& b) {
    const auto differ = std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first;
    if (differ != a.end() && differ + 1 != a.end()) {
        std::string swapped = a;
        const auto at = differ - a.begin();
        std::swap(swapped[static_cast<std::size_t>(at)], swapped[static_cast<std::size_t>(at) + 1]);
        if (swapped == b)
            return 1;
    }
    return letters_changed(a, b);
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

std::size_t blank_length(std::string_view text) noexcept {
    if (text.empty())
        return 0;
    if (text.front() == ' ' || text.front() == '\t')
        return 1;
    const auto starts = [&](std::string_view blank) { return text.substr(0, blank.size()) == blank; };
    if (starts("\xC2\xA0")) // U+00A0, no-break space
        return 2;
    const bool is_of_typesetting = starts("\xE2\x80") && text.size() > 2 &&
                                   ((byte_at(text, 2) >= 0x80 && byte_at(text, 2) <= 0x8A) || // U+2000 on
                                    byte_at(text, 2) == 0xAF);                                // U+202F
    return is_of_typesetting || starts("\xE3\x80\x80") ? 3 : 0;                               // U+3000
}

std::string_view trimmed(std::string_view text) noexcept {
    while (const std::size_t length = blank_length(text))
        text.remove_prefix(length);
    for (std::size_t last = 1; last <= 3 && last <= text.size();) {
        if (blank_length(text.substr(text.size() - last)) == last) {
            text.remove_suffix(last);
            last = 1;
        } else {
            ++last;
        }
    }
    return text;
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

std::optional<std::string> nearest_name(std::string_view typed, const std::vector<std::string>& names) {
    const std::size_t max_changed = typed.size() < 5 ? 1 : 2;
    std::optional<std::string> nearest;
    std::size_t least = max_changed + 1;
    for (const std::string& name : names) {
        if (differ_in_number(lower_case(typed), lower_case(name)))
            continue;
        const std::size_t changed = slips_between(lower_case(typed), lower_case(name));
        if (changed < least)
            nearest = name;
        else if (changed == least)
            nearest.reset();
        least = std::min(least, changed);
    }
    return nearest;
}

bool is_one_slip(const std::string& a, const std::string& b) {
    return slips_between(a, b) == 1;
}

Error not_on_file(const std::string& message, const std::string& typed, const std::vector<std::string>& names,
                  Error::Remedy else_do, const std::string& about) {
    const auto meant = nearest_name(typed, names);
    return meant ? Error(message, Error::Kind::not_found, Error::Remedy::use_name_meant, *meant)
                 : Error(message, Error::Kind::not_found, else_do, about);
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
