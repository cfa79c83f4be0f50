#pragma once

#include "exchange/calendar/ical.hpp"
#include "inkturn/base/day_span.hpp"
#include "inkturn/plan/timetable.hpp"
#include "inkturn/retry/candidate.hpp"

#include <cstdint>
#include <vector>

namespace inkturn {

// What a candidate has to do, as calendar events. Their UIDs come only from facts, never from a store's
// numbers, and show no code: the next calendar, from any store, has the same ones.

/// What each event stands for.
enum class EventFor : std::uint8_t { day, item };

/// The items of a timetable that fall in the span, by day; `request` is what it was made from. A day's UID
/// comes from the candidate and the day; those of items from the candidate and
/// - of a retry: the sitting's paper and day, the question and the turn,
/// - of a paper: its subject and id, or its number where it is not on file,
/// - of a topic: its subject, the topic, the day it was last relearned, and the piece,
/// - of a check: its subject, the topic, and the day it was relearned,
/// - of facts: their subject, and each one's prompt and the day it was last on a sheet,
/// so they stay the same when the item is moved to another day. Answers to facts are not shown.
std::vector<CalendarEvent> events_of_work(const Candidate& candidate, const TimetableRequest& request,
                                          const Timetable& timetable, DaySpan span, EventFor each);

/// The lessons of the span that the candidate comes or came to, by day. Their UIDs come from the candidate
/// and the lesson's id, so a lesson that is moved keeps its own.
std::vector<CalendarEvent> events_of_lessons(const Candidate& candidate, DaySpan span);

/// The exams of the span that concern the candidate (those for all subjects, and for subjects of papers sat
/// or to be sat), in the candidate's order. Their UIDs come from title and subject, so an exam that is
/// postponed keeps its own; if several share both, also from their order.
std::vector<CalendarEvent> events_of_exams(const Candidate& candidate, const Timetable& timetable,
                                           DaySpan span);

} // namespace inkturn
