#pragma once

#include "exchange/calendar/ical.hpp"
#include "inkturn/base/day_span.hpp"
#include "inkturn/plan/timetable.hpp"
#include "inkturn/retry/candidate.hpp"

#include <cstdint>
#include <vector>

namespace inkturn {

// What a candidate has to do, as events of a calendar. Their UIDs are worked out from facts alone, never from
// a store's numbers, and show no code: the next calendar, from whichever store, has the same ones.

/// What has an event of its own.
enum class EventFor : std::uint8_t { day, item };

/// The items of a timetable that fall in the span, by day; `request` is what it was made of. A day's UID
/// comes from the candidate and the day; those of items from the candidate and
/// - of a retry: the sitting's paper and day, the question and the turn,
/// - of a paper: its subject and id, or its number where it is not on file,
/// - of a topic: its subject, the topic, the day on which it was relearned last, and the piece,
/// - of facts: their subject, and each one's prompt and the day on which it was asked last,
/// so that they stay where the item is placed anew. No answer to a fact is shown.
std::vector<CalendarEvent> events_of_work(const Candidate& candidate, const TimetableRequest& request,
                                          const Timetable& timetable, DaySpan span, EventFor each);

/// The exams of the span that concern the candidate, those of all subjects and of the subjects of papers sat
/// or to be sat, in the candidate's order. Their UIDs come from title and subject, so that an exam that is
/// put off keeps its own; where several have the same, from their order among these too.
std::vector<CalendarEvent> events_of_exams(const Candidate& candidate, const Timetable& timetable,
                                           DaySpan span);

} // namespace inkturn
