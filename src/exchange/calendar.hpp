#pragma once

#include "exchange/ical.hpp"
#include "inkturn/availability.hpp"
#include "inkturn/candidate.hpp"

#include <cstdint>
#include <vector>

namespace inkturn {

// What a candidate has to do, as events of a calendar. Their UIDs are worked out from facts alone, never from
// a store's numbers, and show no code: the next calendar, from whichever store, has the same ones.

/// What has an event of its own.
enum class EventFor : std::uint8_t { day, retry };

/// The open retries that fall in the span, by day. A day's UID comes from the candidate and the day; a
/// retry's from the candidate, the sitting's paper and day, the question and the turn, so that it stays where
/// the retry is placed anew.
std::vector<CalendarEvent> events_of_retries(const Candidate& candidate, const std::vector<Retry>& retries,
                                             DaySpan span, EventFor each);

/// The exams of the span that concern the candidate, those of all subjects and of the subjects of papers sat,
/// in the candidate's order. Their UIDs come from title and subject, so that an exam that is put off keeps
/// its own; where several have the same, from their order among these too.
std::vector<CalendarEvent> events_of_exams(const Candidate& candidate, DaySpan span);

} // namespace inkturn
