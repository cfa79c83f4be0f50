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

void check_free_days(Days free) {
    if (free < Days(0) || free > Availability::max_free_days)
        throw Error("0 to " + std::to_string(Availability::max_free_days.count()) +
                    " days of a week can stay free, not " + std::to_string(free.count()));
}

/// What both set is set to the lesser time, or the more free days.
StatedTimes stricter(StatedTimes a, const StatedTimes& b) {
    for (std::size_t i = 0; i < a.week.size(); ++i)
        if (b.week[i])
            a.week[i] = std::min(a.week[i].value_or(*b.week[i]), *b.week[i]);
    for (const auto& [day, time] : b.dates) {
        Seconds& here = a.dates.emplace(day, time).first->second;
        here = std::min(here, time);
    }
    if (b.free_days)
        a.free_days = std::max(a.free_days.value_or(*b.free_days), *b.free_days);
    return a;
}

void lay_over(Availability& availability, const StatedTimes& times) {
    for (std::size_t i = 0; i < availability.week.size(); ++i)
        availability.week[i] = times.week[i].value_or(availability.week[i]);
    for (const auto& [day, time] : times.dates)
        availability.dates[day] = time;
    availability.free_days = times.free_days.value_or(availability.free_days);
}

} // namespace

bool is_day_off(const std::map<Day, Seconds>& dates, Day day) {
    const auto found = dates.find(day);
    return found != dates.end() && found->second == Seconds(0);
}

bool StatedTimes::is_empty() const {
    return *this == StatedTimes();
}

bool StatedTimes::operator==(const StatedTimes& other) const {
    return week == other.week && dates == other.dates && free_days == other.free_days;
}

StatedTimes stated(const Availability& availability) {
    StatedTimes times;
    std::copy(availability.week.begin(), availability.week.end(), times.week.begin());
    times.dates = availability.dates;
    times.free_days = availability.free_days;
    return times;
}

Availability availability_of(const StatedTimes& own, const std::vector<StatedTimes>& of_classes) {
    StatedTimes of_all;
    for (const StatedTimes& of_class : of_classes)
        of_all = stricter(std::move(of_all), of_class);
    Availability availability;
    lay_over(availability, of_all);
    lay_over(availability, own);
    return availability;
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
    check_free_days(availability.free_days);
}

void check_times(const StatedTimes& times) {
    check_availability(availability_of(times, {}));
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
