#pragma once

#include "cli/context.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"
#include "inkturn/plan/timetable.hpp"

namespace inkturn {

/// A candidate's timetable with what it was made of.
struct TimetableOnFile {
    TimetableRequest request;
    Timetable made;
    std::vector<PlanChange> changes; ///< against the days that were on file
};

/// Makes the timetable from what the store holds, and saves the days that it chose, where they are not those
/// on file and the store may be written.
TimetableOnFile timetable_on_file(Store& store, const Candidate& candidate, PlacementMode mode, Day today);

/// What would make it fit, where it is short.
std::vector<Remedy> remedies(const Candidate& candidate, const TimetableOnFile& timetable, Day today);

} // namespace inkturn
