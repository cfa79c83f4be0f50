#pragma once

#include "cli/context.hpp"
#include "inkturn/timetable.hpp"

namespace inkturn {

/// What the store holds for the candidate's timetable.
TimetableAsked timetable_asked(const Store& store, const Candidate& candidate, Placing placing);

/// Saves the days that the timetable chose, where they are not those on file and the store may be written.
void keep_timetable(Store& store, const Candidate& candidate, const Timetable& timetable);

/// The retries among its items, in their order.
std::vector<Retry> retries_of(const Timetable& timetable);

} // namespace inkturn
