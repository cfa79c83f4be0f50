#include "exchange/document/times.hpp"

#include "exchange/document/difference.hpp"
#include "exchange/document/strict_json.hpp"
#include "exchange/json/value.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {
namespace {

constexpr int seconds_a_day = 86400;

Seconds read_available(const JsonValue& value) {
    return Seconds(value.whole_number(0, seconds_a_day));
}

void take_class_times(Store::Change& change, const std::string& name, const StatedTimes& in_file,
                      const MergeOptions& options, Merge& merge) {
    const StatedTimes here = change.store().class_times(name);
    const auto differs = difference(here, in_file);
    if (!differs)
        return;
    if (!here.is_empty() && !options.replace) {
        merge.refuse("class " + name + ": " + *differs + "; --replace takes the file's");
        return;
    }
    change.set_class_times(name, in_file);
    ++(here.is_empty() ? merge.availabilities_added : merge.availabilities_replaced);
}

} // namespace

Json value_of(const StatedTimes& times) {
    if (times.is_empty())
        return nullptr;
    Json week = Json::object();
    for (unsigned i = 0; i < times.week.size(); ++i)
        if (times.week[i])
            week[std::string(weekday_name(i))] = times.week[i]->count();
    Json dates = Json::array();
    for (const auto& [day, available] : times.dates)
        dates.push_back({{"date", iso(day)}, {"available_seconds", available.count()}});
    const bool is_whole = week.size() == times.week.size();
    Json object = {{"week_seconds", std::move(week)}, {"dates", std::move(dates)}};
    if (is_whole && !times.free_days)
        object["free_days"] = nullptr;
    else if (times.free_days && !(is_whole && *times.free_days == Availability().free_days))
        object["free_days"] = times.free_days->count();
    return object;
}

StatedTimes read_times(const JsonValue& value) {
    StatedTimes times;
    if (value.is_null())
        return times;
    value.check_keys({"week_seconds", "dates"}, {"free_days"});
    const JsonValue week = value.at("week_seconds");
    week.check_keys({}, {"mon", "tue", "wed", "thu", "fri", "sat", "sun"});
    for (unsigned i = 0; i < times.week.size(); ++i)
        if (week.has(weekday_name(i)))
            times.week[i] = read_available(week.at(weekday_name(i)));
    value.at("dates").each_element([&](const JsonValue& date) {
        date.check_keys({"date", "available_seconds"});
        const Day day = read_day(date.at("date"));
        if (!times.dates.emplace(day, read_available(date.at("available_seconds"))).second)
            date.refuse(iso(day) + " appears twice");
    });
    if (value.has("free_days") && !value.at("free_days").is_null())
        times.free_days = Days(value.at("free_days").whole_number(0, Availability::max_free_days.count()));
    else if (!value.has("free_days") &&
             std::all_of(times.week.begin(), times.week.end(), [](const auto& time) { return !!time; }))
        times.free_days = Availability().free_days;
    return times;
}

void take_class_times(Store::Change& change, const Document& document, const MergeOptions& options,
                      Merge& merge) {
    for (const auto& [name, times] : document.class_times)
        take_class_times(change, name, times, options, merge);
}

} // namespace inkturn
