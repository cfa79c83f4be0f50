#include "inkturn/retry/availability.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 7> weekday_names{"mon", "tue", "wed", "thu", "fri", "sat", "sun"};

void check_time_of_day(Seconds time) {
    if (time < Seconds(0) || time > std::chrono::hours{24})
        throw Error("a day has 0 to " + std::to_string(Seconds(std::chrono::hours{24}).count()) +
                    " seconds for this work, not " + std::to_string(time.count()));
}

} // namespace

bool Availability::is_default() const {
    return dates.empty() && week == Availability().week && free_days == Availability().free_days;
}

Seconds Availability::on(Day day) const {
    const Seconds time = time_set(day);
    if (time == Seconds(0))
        return time;
    const Day monday = day - Days{weekday_index(day)};
    Days freed_first{0};
    for (Day other = monday; other < monday + Days{7}; other += Days{1}) {
        const Seconds others = time_set(other);
        if (others < time || (others == time && other > day))
            ++freed_first;
    }
    if (freed_first < free_days)
        return Seconds(0);
    const auto by_lessons = taken.find(day);
    return by_lessons == taken.end() ? time : std::max(Seconds(0), time - by_lessons->second);
}

Seconds Availability::time_set(Day day) const {
    if (!dates.empty()) {
        const auto found = dates.find(day);
        if (found != dates.end())
            return found->second;
    }
    return week[weekday_index(day)];
}

void check_availability(const Availability& availability) {
    for (const Seconds time : availability.week)
        check_time_of_day(time);
    for (const auto& [day, time] : availability.dates) {
        check_day(day);
        check_time_of_day(time);
    }
    if (availability.free_days < Days(0) || availability.free_days > Availability::max_free_days)
        throw Error("0 to " + std::to_string(Availability::max_free_days.count()) +
                    " days of a week can stay free, not " + std::to_string(availability.free_days.count()));
}

Seconds parse_minutes_of_day(std::string_view text) {
    return std::chrono::minutes{parse_whole_number(text, 0, 1440, "minutes")};
}

unsigned parse_weekday(std::string_view text) {
    for (unsigned i = 0; i < weekday_names.size(); ++i)
        if (weekday_names[i] == text)
            return i;
    throw Error("'" + std::string(text) + "' is not a weekday: write mon, tue, wed, thu, fri, sat or sun");
}

std::string_view weekday_name(unsigned index) noexcept {
    return weekday_names[index];
}

} // namespace inkturn
