#pragma once

#include "inkturn/grades/aim.hpp"
#include "view/text/table.hpp"

#include <optional>
#include <string>

namespace inkturn {

/// `A, 10 marks clear`.
std::string aim_title(const Aim& aim);

// Lines of at most 80 columns that each end in a line break; empty where there is nothing to say.

/// What the aim takes under each set of an award.
std::string aim_lines(const std::vector<AimUnder>& aims, const AwardStanding& standing, const Aim& aim);
/// What it takes under each set of a subject's papers.
std::string aim_lines(const std::vector<AimUnder>& aims, const SubjectStanding& in);

/// Where marks are nearest to be won: topics, what each costs a paper, and what an hour is taken to win back.
/// Nothing without such topics.
std::optional<Table> nearest_table(const std::vector<TopicDiagnosis>& nearest);

/// How to read it; `gain` is what an hour is taken to teach.
std::string nearest_key(Gain gain);

} // namespace inkturn
