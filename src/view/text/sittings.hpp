#pragma once

#include "inkturn/desk/script.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "view/text/table.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `69%`, to the nearest, a half up; `-` of nothing.
std::string percent(Marks part, Marks whole);

/// Marks by phase, and what was left unearned.
Table totals_table(const Totals& sum);

/// A row a part: maximum, the three inks, reason; the codes where any are known.
Table marks_table(const Paper& paper, const std::vector<PartMarks>& parts);

/// A row a script: what it is of, the day of its beginning, how far its marking has come.
Table scripts_table(const std::vector<Script>& scripts);

/// A row a sitting of the candidate's.
Table sittings_table(const Candidate& candidate, const std::vector<Retry>& retries);

} // namespace inkturn
