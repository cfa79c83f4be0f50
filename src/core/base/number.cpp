#include "inkturn/base/number.hpp"

#include "inkturn/base/error.hpp"

#include <charconv>
#include <string>

namespace inkturn {

std::optional<int> read_whole_number(std::string_view text, int max) noexcept {
    if (text.empty() || text.front() < '0' || text.front() > '9')
        return std::nullopt;
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, 10);
    if (error != std::errc() || end != text.data() + text.size() || value > max)
        return std::nullopt;
    return value;
}

int parse_whole_number(std::string_view text, int min, int max, std::string_view what) {
    const auto value = read_whole_number(text, max);
    if (!value || *value < min)
        throw Error(std::string(what) + " '" + std::string(text) + "': give a whole number from " +
                    std::to_string(min) + " to " + std::to_string(max));
    return *value;
}

} // namespace inkturn
