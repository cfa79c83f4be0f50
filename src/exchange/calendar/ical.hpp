#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/moment.hpp"
#include "inkturn/base/time.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The time of day of an event, by the wall clock wherever the calendar is read.
struct EventTime {
    Seconds start; ///< since midnight
    Seconds duration;
};

/// An event of whole days, or at a time of its first.
struct CalendarEvent {
    std::string uid; ///< the same whenever the event is written, and unique to it
    Day first;
    Day last; ///< inclusive
    std::string summary;
    std::string description; ///< may have several lines
    int revision = 0;        ///< its SEQUENCE: of two with the same UID the higher counts
    bool cancelled = false;  ///< whoever has it is to take it out
    std::optional<EventTime> time{};
};

/// A line as a calendar holds it (RFC 5545 §3.1): in pieces of at most 75 octets, none of which ends inside a
/// character, each after the first preceded by a blank. Every piece ends with CRLF. The text is UTF-8 without
/// line breaks.
std::string content_line(std::string_view text);

/// A value of the type TEXT (RFC 5545 §3.3.11): `\`, `;`, `,` and line breaks are escaped; control characters
/// other than a tab, which no calendar may hold, are left out.
std::string text_value(std::string_view text);

/// An iCalendar object (RFC 5545), with at least one event as §3.6 demands. `stamp` is now: if two calendars
/// have an event with the same UID, the one with the later stamp counts (§3.8.7.2).
std::string to_ical(const std::vector<CalendarEvent>& events, Moment stamp);

} // namespace inkturn
