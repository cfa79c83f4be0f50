#include "inkturn/base/likeness.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"

#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <optional>

namespace inkturn {
namespace {

bool is_all_ascii(std::string_view text) {
    return std::all_of(text.begin(), text.end(), is_ascii);
}

std::string mapped(std::string_view text, int options) {
    utf8proc_uint8_t* result = nullptr;
    const auto length = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                     static_cast<utf8proc_ssize_t>(text.size()), &result,
                                     static_cast<utf8proc_option_t>(UTF8PROC_STABLE | options));
    const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owned(result, &std::free);
    return length < 0 ? std::string(text)
                      : std::string(reinterpret_cast<const char*>(result), static_cast<std::size_t>(length));
}

std::string without_leading_zeros(std::string_view text) {
    std::string rest;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool leads = text[i] == '0' && (rest.empty() || !is_digit(rest.back()));
        if (!leads || i + 1 == text.size() || !is_digit(text[i + 1]))
            rest += text[i];
    }
    return rest;
}

std::string with_single_spaces(std::string_view text) {
    std::string single;
    while (!(text = trimmed(text)).empty()) {
        std::size_t end = 1;
        while (end < text.size() && blank_length(text.substr(end)) == 0)
            ++end;
        single.append(single.empty() ? "" : " ").append(text.substr(0, end));
        text.remove_prefix(end);
    }
    return single;
}

/// A character and the ASCII one that has its shape. Sorted by the character.
struct Shape {
    char32_t code;
    char like;
};

constexpr std::array<Shape, 92> shapes{{
    // Latin and digits
    {U'I', '1'},
    {U'O', '0'},
    {U'l', '1'},
    {U'o', '0'},
    {U'|', '1'},
    {0x0131, 'i'}, // dotless i
    // Greek
    {0x0391, 'A'},
    {0x0392, 'B'},
    {0x0395, 'E'},
    {0x0396, 'Z'},
    {0x0397, 'H'},
    {0x0399, '1'},
    {0x039A, 'K'},
    {0x039C, 'M'},
    {0x039D, 'N'},
    {0x039F, '0'},
    {0x03A1, 'P'},
    {0x03A4, 'T'},
    {0x03A5, 'Y'},
    {0x03A7, 'X'},
    {0x03B1, 'a'},
    {0x03B3, 'y'},
    {0x03B9, 'i'},
    {0x03BA, 'k'},
    {0x03BD, 'v'},
    {0x03BF, '0'},
    {0x03C1, 'p'},
    {0x03C5, 'u'},
    {0x03C7, 'x'},
    {0x03F2, 'c'},
    {0x03F3, 'j'},
    {0x03F9, 'C'},
    // Cyrillic
    {0x0405, 'S'},
    {0x0406, '1'},
    {0x0408, 'J'},
    {0x0410, 'A'},
    {0x0412, 'B'},
    {0x0415, 'E'},
    {0x0417, '3'},
    {0x041A, 'K'},
    {0x041C, 'M'},
    {0x041D, 'H'},
    {0x041E, '0'},
    {0x0420, 'P'},
    {0x0421, 'C'},
    {0x0422, 'T'},
    {0x0423, 'Y'},
    {0x0425, 'X'},
    {0x0430, 'a'},
    {0x0431, '6'},
    {0x0432, 'b'},
    {0x0435, 'e'},
    {0x0437, '3'},
    {0x043A, 'k'},
    {0x043C, 'm'},
    {0x043D, 'h'},
    {0x043E, '0'},
    {0x0440, 'p'},
    {0x0441, 'c'},
    {0x0442, 't'},
    {0x0443, 'y'},
    {0x0445, 'x'},
    {0x0455, 's'},
    {0x0456, 'i'},
    {0x0458, 'j'},
    {0x0474, 'V'},
    {0x0475, 'v'},
    {0x04AE, 'Y'},
    {0x04AF, 'y'},
    {0x04BA, 'H'},
    {0x04BB, 'h'},
    {0x04C0, '1'},
    {0x04CF, '1'},
    {0x0501, 'd'},
    {0x050C, 'G'},
    {0x051A, 'Q'},
    {0x051B, 'q'},
    {0x051C, 'W'},
    {0x051D, 'w'},
    // Dashes
    {0x2010, '-'},
    {0x2011, '-'},
    {0x2012, '-'},
    {0x2013, '-'},
    {0x2014, '-'},
    {0x2015, '-'},
    {0x2212, '-'},
    {0xFE58, '-'},
    {0xFE63, '-'},
    // Wide forms that are like another letter or digit
    {0xFF29, '1'},
    {0xFF2F, '0'},
    {0xFF4C, '1'},
    {0xFF4F, '0'},
}};

/// The ASCII characters in their wide forms, which stand in the same order.
constexpr char32_t first_wide = 0xFF01;
constexpr char32_t last_wide = 0xFF5E;

/// The ASCII character that looks like this one; nothing where none does.
std::optional<char> shape_of(char32_t code) {
    const auto* found = std::lower_bound(shapes.begin(), shapes.end(), code,
                                         [](const Shape& shape, char32_t one) { return shape.code < one; });
    if (found != shapes.end() && found->code == code)
        return found->like;
    if (code >= first_wide && code <= last_wide)
        return static_cast<char>(code - first_wide + '!');
    return std::nullopt;
}

/// With ASCII characters in place of those that look like them.
std::string in_shapes(std::string_view text) {
    std::string shaped;
    for (std::size_t at = 0; at < text.size();) {
        const auto character = utf8_character(text, at);
        const std::size_t length = character ? character->length : 1;
        const auto shape = character ? shape_of(character->code) : std::nullopt;
        if (shape)
            shaped += *shape;
        else
            shaped.append(text.substr(at, length));
        at += length;
    }
    return shaped;
}

/// `U+039A`.
std::string number_in_unicode(char32_t code) {
    std::array<char, 16> name{};
    std::snprintf(name.data(), name.size(), "U+%04X", static_cast<unsigned>(code));
    return name.data();
}

/// Such a character as it is written; one that no keyboard for English has with its number.
std::string named_character(std::string_view text, const Utf8Character& character) {
    std::string named(text);
    if (character.code > 0x7F)
        named += " (" + number_in_unicode(character.code) + ")";
    return named;
}

/// The joiners of Indic and Arabic scripts, and what chooses the form of the character before it.
bool joins_or_shapes(char32_t code) {
    return code == 0x200C || code == 0x200D || (code >= 0xFE00 && code <= 0xFE0F);
}

} // namespace

std::string composed(std::string_view text) {
    return is_all_ascii(text) ? std::string(text) : mapped(text, UTF8PROC_COMPOSE);
}

std::string likeness(std::string_view code) {
    const std::string folded = is_all_ascii(code)
                                   ? lower_case(code)
                                   : mapped(code, UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD | UTF8PROC_IGNORE);
    return without_leading_zeros(with_single_spaces(folded));
}

std::string look(std::string_view code) {
    return likeness(in_shapes(composed(code)));
}

std::string look_alikes(std::string_view code, std::string_view other) {
    std::size_t of_code = 0;
    std::size_t of_other = 0;
    while (of_code < code.size() && of_other < other.size()) {
        const auto a = utf8_character(code, of_code);
        const auto b = utf8_character(other, of_other);
        if (!a || !b)
            return "";
        const std::string_view in_code = code.substr(of_code, a->length);
        const std::string_view in_other = other.substr(of_other, b->length);
        if (likeness(in_code) != likeness(in_other))
            return look(in_code) == look(in_other)
                       ? named_character(in_code, *a) + " for " + named_character(in_other, *b)
                       : "";
        of_code += a->length;
        of_other += b->length;
    }
    return "";
}

void CodesAlike::add(const std::string& code) {
    by_likeness_.try_emplace(likeness(code), code);
    by_look_.try_emplace(look(code), code);
}

const std::string* CodesAlike::find(const std::string& code) const {
    if (const auto alike = by_likeness_.find(likeness(code));
        alike != by_likeness_.end() && alike->second != code)
        return &alike->second;
    const auto alike = by_look_.find(look(code));
    return alike == by_look_.end() || alike->second == code ? nullptr : &alike->second;
}

bool has_invisible_character(std::string_view text) {
    return !is_all_ascii(text) &&
           mapped(text, UTF8PROC_COMPOSE) != mapped(text, UTF8PROC_COMPOSE | UTF8PROC_IGNORE);
}

bool shows_nothing(std::string_view character, char32_t code) {
    return !joins_or_shapes(code) && has_invisible_character(character);
}

std::optional<char32_t> hidden_character(std::string_view text) {
    if (is_all_ascii(text))
        return std::nullopt;
    for (std::size_t at = 0; at < text.size();) {
        const auto character = utf8_character(text, at);
        if (!character)
            return std::nullopt;
        if (shows_nothing(text.substr(at, character->length), character->code))
            return character->code;
        at += character->length;
    }
    return std::nullopt;
}

void check_is_visible(std::string_view text, const std::string& what) {
    if (const auto hidden = hidden_character(text))
        throw Error(what + ": it holds a character that shows nothing (" + number_in_unicode(*hidden) +
                    "), so that it would look like another: type it again");
}

} // namespace inkturn
