#include "inkturn/base/likeness.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/text.hpp"

#include <utf8proc.h>

#include <algorithm>
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

} // namespace inkturn
