#pragma once

#include <chrono>
#include <string>
#include <string_view>

namespace inkturn {

using Seconds = std::chrono::seconds;

/// A length of time: `m:ss` below an hour, `h:mm:ss` from there.
std::string length_text(Seconds length);

/// A time of day as seconds since midnight, from `9:00`, `09:00` or `09:00:30`. Throws Error.
Seconds parse_time_of_day(std::string_view text);

/// `09:00:30`, counted from midnight; a time past midnight starts again at `00:00:00`.
std::string time_of_day_text(Seconds since_midnight);

} // namespace inkturn
