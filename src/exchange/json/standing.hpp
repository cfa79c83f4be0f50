#pragma once

#include "inkturn/grades/aim.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A candidate's standing in the subjects and awards asked for, and what an aim takes, if there is one.
std::string json_of(const CandidateStanding& standing, const std::vector<AwardStanding>& awards,
                    const std::optional<AimOutlook>& aim);

} // namespace inkturn
