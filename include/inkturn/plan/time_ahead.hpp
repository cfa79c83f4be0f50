#pragma once

#include "inkturn/plan/place.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/retry/exam.hpp"
#include "inkturn/retry/retry.hpp"

#include <optional>
#include <vector>

namespace inkturn {

/// The days from today to the last, both included. Exams of all subjects count, mocks too.
TimeAhead time_ahead(const Availability& availability, const std::vector<Exam>& exams, Seconds done_today,
                     DaySpan days);

/// How far it is looked for a day: up to the exam, eight weeks after the window or today at most.
Day last_day_looked_at(const WindowByExams& by, Day today);

/// The days that a retry may take, and what was missed of facts: its window, then those after it before the
/// exam; where every day left of the window is off, the days before it too, after the attempt and from today
/// on. A window that has closed leaves all days from today to the exam. Empty: none is left.
std::vector<DaySpan> retry_spans(const Window& window, std::optional<Day> exam, Day attempt,
                                 const TimeAhead& time);

/// A retry as a piece of work, late where its window has closed; `number` tells it from others of the same
/// attempt.
WorkPiece retry_piece(Seconds work, const WindowByExams& by, Day attempt, int number, const TimeAhead& time);

} // namespace inkturn
