#include "cli/weekday_time.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/retry/availability.hpp"

#include <algorithm>
#include <set>
#include <string_view>

namespace inkturn {
namespace {

WeekdayTime parse_weekday_time(const std::string& text) {
    constexpr std::string_view usual = "=usual";
    if (text.size() > usual.size() && text.substr(text.size() - usual.size()) == usual)
        return {parse_weekday(text.substr(0, text.size() - usual.size())), std::nullopt};
    const auto [name, available] = parse_day_minutes(text);
    return {parse_weekday(name), available};
}

} // namespace

DayMinutes parse_day_minutes(const std::string& text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos)
        throw Error("'" + text + "': write DAY=MINUTES, such as mon=60");
    return {text.substr(0, equals), parse_minutes_of_day(std::string_view(text).substr(equals + 1))};
}

std::vector<WeekdayTime> parse_week(const std::vector<std::string>& entries) {
    std::set<unsigned> named;
    std::vector<WeekdayTime> week;
    for (const std::string& entry : entries) {
        week.push_back(parse_weekday_time(entry));
        if (!named.insert(week.back().weekday).second)
            throw Error(std::string(weekday_name(week.back().weekday)) +
                        " appears twice: give each weekday once");
    }
    return week;
}

std::vector<std::string> split_at_blanks(const std::string& text) {
    constexpr const char* blanks = " \t";
    std::vector<std::string> words;
    for (std::size_t end = 0, start = 0;
         (start = text.find_first_not_of(blanks, end)) != std::string::npos;) {
        end = std::min(text.find_first_of(blanks, start), text.size());
        words.push_back(text.substr(start, end - start));
    }
    return words;
}

} // namespace inkturn
