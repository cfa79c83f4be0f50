#include "inkturn/base/time.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

#include <vector>

namespace inkturn {
namespace {

std::string two_digits(long long number) {
    return (number < 10 ? "0" : "") + std::to_string(number);
}

std::vector<std::string_view> split_at_colons(std::string_view text) {
    std::vector<std::string_view> fields;
    for (std::size_t start = 0;;) {
        const std::size_t colon = text.find(':', start);
        fields.push_back(text.substr(start, colon - start));
        if (colon == std::string_view::npos)
            return fields;
        start = colon + 1;
    }
}

[[noreturn]] void refuse_time_of_day(std::string_view text) {
    throw Error("'" + std::string(text) + "' is no time of day: write it as 09:00 or 09:00:30");
}

} // namespace

std::string length_text(Seconds length) {
    const long long all = length.count();
    const long long hours = all / 3600;
    const long long minutes = all / 60 % 60;
    const std::string seconds = two_digits(all % 60);
    if (hours == 0)
        return std::to_string(minutes) + ":" + seconds;
    return std::to_string(hours) + ":" + two_digits(minutes) + ":" + seconds;
}

Seconds parse_time_of_day(std::string_view text) {
    const auto fields = split_at_colons(text);
    if (fields.size() < 2 || fields.size() > 3)
        refuse_time_of_day(text);
    const auto in_range = [&](std::size_t i, int max) {
        if (i >= fields.size())
            return 0;
        const auto number = fields[i].size() <= 2 ? read_whole_number(fields[i], max) : std::nullopt;
        if (!number || (i > 0 && fields[i].size() != 2))
            refuse_time_of_day(text);
        return *number;
    };
    return std::chrono::hours{in_range(0, 23)} + std::chrono::minutes{in_range(1, 59)} +
           Seconds{in_range(2, 59)};
}

std::string time_of_day_text(Seconds since_midnight) {
    const long long all = since_midnight.count() % (24 * 3600);
    return two_digits(all / 3600) + ":" + two_digits(all / 60 % 60) + ":" + two_digits(all % 60);
}

} // namespace inkturn
