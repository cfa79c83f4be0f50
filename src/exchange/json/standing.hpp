#pragma once

#include "inkturn/grades/standing.hpp"

#include <string>

namespace inkturn {

/// A candidate's standing in the subjects asked for.
std::string json_of(const CandidateStanding& standing);

} // namespace inkturn
