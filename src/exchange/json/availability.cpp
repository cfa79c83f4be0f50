#include "exchange/json/availability.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of_availability(const std::string& candidate, const Availability& availability) {
    Json week = Json::object();
    for (unsigned i = 0; i < availability.week.size(); ++i)
        week[std::string(weekday_name(i))] = availability.week[i].count();
    Json dates = Json::array();
    for (const auto& [day, available] : availability.dates)
        dates.push_back({{"date", iso(day)}, {"available_seconds", available.count()}});
    return text_of({{"candidate", candidate},
                    {"week_seconds", std::move(week)},
                    {"dates", std::move(dates)},
                    {"free_days", availability.free_days}});
}

} // namespace inkturn
