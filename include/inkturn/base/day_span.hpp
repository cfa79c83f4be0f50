#pragma once

#include "inkturn/base/day.hpp"

#include <string_view>

namespace inkturn {

/// Days from `first` to `last`, both included.
struct DaySpan {
    Day first;
    Day last;

    constexpr bool contains(Day day) const { return first <= day && day <= last; }
};

/// Reads `D` or `D..D`, each a day as parse_day() takes it. Throws Error where the end is before the start or
/// the span is longer than 1,500 days.
DaySpan parse_day_span(std::string_view text, Day today);

/// The same for days to come. Throws Error where all of them are past, with the year that was likely meant.
DaySpan parse_span_ahead(std::string_view text, Day today);

} // namespace inkturn
