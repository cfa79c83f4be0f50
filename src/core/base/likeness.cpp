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

bool has_invisible_character(std::string_view text) {
    return !is_all_ascii(text) &&
           mapped(text, UTF8PROC_COMPOSE) != mapped(text, UTF8PROC_COMPOSE | UTF8PROC_IGNORE);
}

bool shows_nothing(std::string_view character, char32_t code) {
    return !joins_or_shapes(code) && has_invisible_character(character);
}

void check_is_visible(std::string_view text, const std::string& what) {
    if (is_all_ascii(text))
        return;
    for (std::size_t at = 0; at < text.size();) {
        const auto character = utf8_character(text, at);
        if (!character)
            return; // that it isn't UTF-8 is found elsewhere
        if (shows_nothing(text.substr(at, character->length), character->code)) {
            std::array<char, 16> name{};
            std::snprintf(name.data(), name.size(), "U+%04X", static_cast<unsigned>(character->code));
            throw Error(what + ": it holds a character that shows nothing (" + name.data() +
                        "), so that it would look like another: type it anew");
        }
        at += character->length;
    }
}

} // namespace inkturn
