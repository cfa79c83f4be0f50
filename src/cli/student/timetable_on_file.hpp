#pragma once

#include "cli/context.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"
#include "inkturn/plan/timetable.hpp"

namespace inkturn {

/// A candidate's timetable and what it was made from.
struct TimetableOnFile {
    TimetableRequest request;
    Timetable made;
    std::vector<PlanChange> changes; ///< against the days that were on file
};

/// Makes the timetable from what the store holds, and saves the days it chose if they differ from those on
/// file and the store can be written.
TimetableOnFile timetable_on_file(Store& store, const Candidate& candidate, PlacementMode mode, Day today);

/// What would make it fit, if time is short.
std::vector<Remedy> remedies(const Candidate& candidate, const TimetableOnFile& timetable, Day today);

} // namespace inkturn
