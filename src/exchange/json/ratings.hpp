#pragma once

#include "inkturn/plan/rating.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// Of `topics rate --json`.
std::string json_of(const std::vector<RatedTopic>& topics);

} // namespace inkturn
