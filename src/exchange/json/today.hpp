#pragma once

#include "inkturn/plan/plan.hpp"

#include <string>

namespace inkturn {

std::string json_of(const TodaysWork& work);

} // namespace inkturn
