#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/moment.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// An event of whole days.
struct CalendarEvent {
    std::string uid; ///< the same each time that the event is written, and no other's
    Day first;
    Day last; ///< included
    std::string summary;
    std::string description; ///< may have several lines
};

/// A line as a calendar holds it (RFC 5545 §3.1): in pieces of at most 75 octets, none of which ends inside a
/// character, each after the first behind a blank. Every piece ends with CRLF. The text is UTF-8 without line
/// breaks.
std::string content_line(std::string_view text);

/// A value of the type TEXT (RFC 5545 §3.3.11): `\`, `;`, `,` and line breaks are escaped; control characters
/// other than a tab, which no calendar may hold, are left out.
std::string text_value(std::string_view text);

/// An iCalendar object (RFC 5545) of at least one event: fewer would make none (§3.6). `stamp` is now: where
/// two calendars have an event of the same UID, the later stamp tells which one counts (§3.8.7.2).
std::string to_ical(const std::vector<CalendarEvent>& events, Moment stamp);

} // namespace inkturn
