#include "exchange/calendar/revisions.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace inkturn {
namespace {

/// What it was is not remembered; where a calendar shows cancelled events, this says that it is one.
CalendarEvent cancellation_of(const WrittenEvent& event) {
    CalendarEvent cancelled{event.uid, event.day, event.day, "Cancelled", "No longer planned."};
    cancelled.revision = event.revision + (event.cancelled ? 0 : 1);
    cancelled.cancelled = true;
    return cancelled;
}

} // namespace

std::vector<CalendarEvent> revised(std::vector<CalendarEvent> events, const std::vector<WrittenEvent>& before,
                                   DaySpan span, Day today) {
    std::map<std::string, WrittenEvent> by_uid;
    for (const WrittenEvent& event : before)
        by_uid.emplace(event.uid, event);
    for (CalendarEvent& event : events) {
        const auto known = by_uid.find(event.uid);
        if (known == by_uid.end())
            continue;
        const WrittenEvent& last = known->second;
        event.revision = last.revision + (last.cancelled || last.day != event.first ? 1 : 0);
        by_uid.erase(known);
    }
    for (const WrittenEvent& event : before)
        if (by_uid.count(event.uid) > 0 && event.day >= today && span.contains(event.day))
            events.push_back(cancellation_of(event));
    return events;
}

std::vector<WrittenEvent> events_written(const std::vector<CalendarEvent>& events) {
    std::vector<WrittenEvent> all;
    for (const CalendarEvent& event : events)
        all.push_back({event.uid, event.first, event.revision, event.cancelled});
    return all;
}

} // namespace inkturn
