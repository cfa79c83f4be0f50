#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/plan/place.hpp"
#include "inkturn/retry/turn_count.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn {

struct Timetable;

/// The retries of one turn that a paper will bring, or the open ones of a sitting: what is not got of them
/// comes back.
struct TurnAhead {
    int turn = 1;
    Seconds work;              ///< of all of them, above 0
    std::size_t retries = 1;   ///< how many
    DaySpan days;              ///< on which they may be done
    std::optional<Day> exam{}; ///< ends the windows of what comes back
};

/// A retry of a later turn that is to be expected.
struct LaterRetry {
    int turn;
    Seconds work;               ///< above 0
    std::vector<DaySpan> spans; ///< its window, then the days after it before the exam, eight weeks at most
};

/// What comes back of a turn at the next, and of that at the one after it, four turns on at most: while it
/// takes a minute and the exam leaves a day. They are as long as the retries that they come from. A window
/// counts from all days on which the turn before may be done, see retry_window().
std::vector<LaterRetry> later_retries(const TurnAhead& ahead, const std::vector<TurnCount>& counts);

/// Days for them beside what is done on each day, `done` of it what is planned for it too; nothing where none
/// has room. What each takes for its own goes by PlanWeight, from `unreserved` on.
std::vector<std::optional<Day>> days_for_later(const TimeAhead& time, const std::vector<LaterRetry>& later);

/// Reserves room for what the retries of a timetable bring back: the expected ones of its papers and the open
/// ones, those of a sitting at one turn together. Nothing that has its day moves for it. Where no room is
/// left a timetable that fits is one of which no plan was found.
void reserve_later_turns(const Candidate& candidate, Timetable& timetable);

/// A time in so many pieces, to the second, those of no time left out; a piece at least.
std::vector<Seconds> shared_out(Seconds time, std::size_t pieces);

} // namespace inkturn
