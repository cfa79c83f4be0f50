#pragma once

#include "cli/context.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"
#include "inkturn/plan/timetable.hpp"
#include "inkturn/store/change.hpp"

#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// A candidate's timetable and what it was made from.
struct TimetableOnFile {
    TimetableRequest request;
    Timetable made;
    Candidate from;                  ///< with the days that it was made from
    std::vector<PlanChange> changes; ///< against the days that were on file
    PapersForChecks papers;
};

/// Makes the timetable from what the store holds: the days on file, and each day since they were chosen in
/// turn, as if it had been planned on it. Nothing is stored. Room is reserved for first turns.
TimetableOnFile timetable_on_file(const Store& store, const Candidate& candidate, Day today,
                                  PlacementMode mode = PlacementMode::keep);

/// The same with room for all turns, so that it says whether what is missed once more fits too.
TimetableOnFile whole_timetable(const Store& store, const Candidate& candidate, Day today);

/// Stores the days that have come about since the last change, as every screen shows them today. Begins a
/// change of what the plan is made of: it would be rolled with what is new otherwise. Returns what that
/// changed of the days on file: no later screen tells it.
std::vector<PlanChange> keep_days_passed(Store::Change& change, const std::string& code, Day today);
/// The same for several candidates, before what they have in common changes.
void keep_days_passed(Store::Change& change, const std::vector<std::string>& codes, Day today);

/// Where it is the first record of the candidate whom the file of defaults names: stores the times that it
/// states.
void keep_times_by_default(const Context& context, Store::Change& change, const std::string& code);

/// A timetable that was stored.
struct KeptTimetable {
    std::vector<Retry> retries;    ///< by day, those without one last
    std::vector<PlanChange> moved; ///< of the days that were on file
};

/// Stores the days of the timetable of a candidate as on file by now; ends such a change.
KeptTimetable keep_timetable(Store::Change& change, const Candidate& candidate, Day today,
                             PlacementMode mode = PlacementMode::keep);

/// The same after keep_days_passed(): tells against the days of `before`, which is the candidate as that
/// found it, so that what was not done on a day that has passed is told too, by the command that stores it.
KeptTimetable keep_timetable(Store::Change& change, const Candidate& candidate, Day today,
                             const Candidate& before);

/// The retries of the timetable: by day, those without one last.
std::vector<Retry> retries_on_file(const Store& store, const Candidate& candidate, Day today);

/// What would make it fit, if time is short.
std::vector<Remedy> remedies(const Candidate& candidate, const TimetableOnFile& timetable, Day today);

} // namespace inkturn
