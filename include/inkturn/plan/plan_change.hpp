#pragma once

#include "inkturn/plan/timetable.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A day chosen before that is another one now.
struct PlanChange {
    WorkKind kind;
    std::string what; ///< the retry's id, the paper's id or, where it is not on file, `pure paper 3`; the
                      ///< topic
    Day from;
    std::optional<Day> to; ///< nothing: no day, since it does not fit or its exam leaves none
    bool not_done = false; ///< its day has passed
    bool half = false;     ///< of the hour of a topic
};

/// What a timetable changed of the days on file: by the earlier day. What was done since and what is asked
/// for the first time is no change; nor are the days of facts, which are told by their sheets, nor what had a
/// day before today and has none left.
std::vector<PlanChange> changes(const Candidate& candidate, const Timetable& timetable, Day today);

} // namespace inkturn
