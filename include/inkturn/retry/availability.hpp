#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/time.hpp"

#include <array>
#include <map>
#include <optional>
#include <string_view>
#include <vector>

namespace inkturn {

/// The time a candidate has for this work: by weekday, and on single dates that differ from their weekday.
struct Availability {
    /// An hour from Monday to Saturday, Sunday off, until the candidate says otherwise.
    std::array<Seconds, 7> week{Seconds(3600), Seconds(3600), Seconds(3600), Seconds(3600),
                                Seconds(3600), Seconds(3600), Seconds(0)}; ///< Monday first
    std::map<Day, Seconds> dates;
    /// The fewest days of each week, Monday to Sunday, that stay free, 0 to max_free_days: those with the
    /// least time, the later ones if tied.
    Days free_days{1};

    std::map<Day, Seconds> taken{}; ///< of single dates, by lessons; not set by the candidate

    static constexpr Days max_free_days{6};

    Seconds on(Day day) const;       ///< less what is taken; 0 on a day that stays free
    Seconds time_set(Day day) const; ///< what was set, even for a day that stays free
};

/// Whether the dates that were set make the day one off.
bool is_day_off(const std::map<Day, Seconds>& dates, Day day);

/// The times that were set, by a candidate or for a class; nothing: not set.
struct StatedTimes {
    std::array<std::optional<Seconds>, 7> week{}; ///< Monday first
    std::map<Day, Seconds> dates{};
    std::optional<Days> free_days{};

    bool is_empty() const;
    bool operator==(const StatedTimes& other) const;
};

/// Every time of the week, the dates and the free days, as set.
StatedTimes stated(const Availability& availability);

/// The time that a candidate has: weekday by weekday and date by date their own times stand before those of
/// their classes, and these before the hour of everybody. Of several classes the least time counts, and the
/// most free days.
Availability availability_of(const StatedTimes& own, const std::vector<StatedTimes>& of_classes);

/// Throws Error unless every time is 0 to 24 hours, every date an accepted day, and free_days within its
/// range.
void check_availability(const Availability& availability);
void check_times(const StatedTimes& times); ///< the same

/// Minutes of a day as typed, 0 to 1440. Throws Error.
Seconds parse_minutes_of_day(std::string_view text);

/// `mon` to `sun` as 0 to 6. Throws Error.
unsigned parse_weekday(std::string_view text);
std::string_view weekday_name(unsigned index) noexcept;

} // namespace inkturn
