#pragma once

#include "exchange/calendar/ical.hpp"
#include "inkturn/base/day_span.hpp"
#include "inkturn/store/calendar.hpp"

#include <vector>

namespace inkturn {

/// For how long after its day a written event is remembered.
constexpr Days events_remembered{365};

/// The events of a calendar over the span as those that come after what was written before: each with its
/// revision, which rises where it is on another day or was cancelled. What was written before for a day of
/// the span, today or later, and is not among them is cancelled, at the end, by day; once cancelled it keeps
/// its revision and stays in each calendar over its day, as not each need have been imported.
std::vector<CalendarEvent> revised(std::vector<CalendarEvent> events, const std::vector<WrittenEvent>& before,
                                   DaySpan span, Day today);

/// What is to be remembered of them.
std::vector<WrittenEvent> events_written(const std::vector<CalendarEvent>& events);

} // namespace inkturn
