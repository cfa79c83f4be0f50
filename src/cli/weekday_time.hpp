#pragma once

#include "inkturn/base/time.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// `mon=60` or `2026-12-24=90`, split.
struct DayMinutes {
    std::string day;
    Seconds available;
};

/// Throws Error.
DayMinutes parse_day_minutes(const std::string& text);

/// `mon=60`; `mon=usual`: nothing.
struct WeekdayTime {
    unsigned weekday; ///< 0 is Monday
    std::optional<Seconds> available;
};

/// Each weekday once at most. Throws Error.
std::vector<WeekdayTime> parse_week(const std::vector<std::string>& entries);

/// The text's words, by blanks.
std::vector<std::string> split_at_blanks(const std::string& text);

} // namespace inkturn
