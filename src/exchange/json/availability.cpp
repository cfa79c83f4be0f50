#include "exchange/json/availability.hpp"

#include "exchange/json/value.hpp"

#include <algorithm>

namespace inkturn {
namespace {

Json value_of(const std::map<Day, Seconds>& dates) {
    Json list = Json::array();
    for (const auto& [day, available] : dates)
        list.push_back({{"date", iso(day)}, {"available_seconds", available.count()}});
    return list;
}

/// The weekdays, dates and free days that a class's times decide.
Json value_of_from_class(const Candidate& candidate, const Availability& shown,
                         const std::vector<TimesOfClass>& classes) {
    const auto any_says = [&](const auto& says) {
        return std::any_of(classes.begin(), classes.end(),
                           [&](const TimesOfClass& one) { return says(one.times); });
    };
    const StatedTimes& own = candidate.own_times;
    Json list = Json::array();
    for (unsigned i = 0; i < own.week.size(); ++i)
        if (!own.week[i] && any_says([i](const StatedTimes& times) { return !!times.week[i]; }))
            list.push_back(std::string(weekday_name(i)));
    for (const auto& date : shown.dates)
        if (own.dates.count(date.first) == 0)
            list.push_back(iso(date.first));
    if (!own.free_days && any_says([](const StatedTimes& times) { return !!times.free_days; }))
        list.push_back("free_days");
    return list;
}

} // namespace

std::string json_of_availability(const Candidate& candidate, const Availability& shown,
                                 const std::vector<TimesOfClass>& classes) {
    Json week = Json::object();
    for (unsigned i = 0; i < shown.week.size(); ++i)
        week[std::string(weekday_name(i))] = shown.week[i].count();
    return text_of({{"candidate", candidate.code},
                    {"week_seconds", std::move(week)},
                    {"dates", value_of(shown.dates)},
                    {"free_days", shown.free_days.count()},
                    {"from_class", value_of_from_class(candidate, shown, classes)}});
}

std::string json_of(const TimesOfClass& of_class) {
    const StatedTimes& times = of_class.times;
    Json week = Json::object();
    for (unsigned i = 0; i < times.week.size(); ++i)
        week[std::string(weekday_name(i))] = times.week[i] ? Json(times.week[i]->count()) : Json(nullptr);
    return text_of({{"class", of_class.name},
                    {"week_seconds", std::move(week)},
                    {"dates", value_of(times.dates)},
                    {"free_days", times.free_days ? Json(times.free_days->count()) : Json(nullptr)}});
}

} // namespace inkturn
