#pragma once

#include "inkturn/desk/script.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "view/text/table.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `69%`, to the nearest, halves up; `-` if the whole is 0.
std::string percent(Marks part, Marks whole);

/// Marks by phase, those unaided, and those not earned.
Table totals_table(const Totals& sum);

/// Working time, time off and the parts that were slow, by the clock; without one, what had been tried when
/// the ink changed. In lines.
std::string time_text(const Paper& paper, const Sitting& sitting);

/// One row per part: maximum, the three inks, reason; the codes if any are known.
Table marks_table(const Paper& paper, const std::vector<PartMarks>& parts);

/// What of the paper did not count, and why: lines, or nothing where all of it did.
std::string counted_text(const Paper& paper, const std::vector<PartMarks>& parts);

/// How much extra time is included, and who can grant it: a line, or nothing where there is none.
std::string extra_time_text(ExtraTime extra);

/// One row per script: its paper and question, the day it was started, how much is marked.
Table scripts_table(const std::vector<Script>& scripts);

/// One row per sitting of the candidate.
Table sittings_table(const Candidate& candidate, const std::vector<Retry>& retries);

} // namespace inkturn
