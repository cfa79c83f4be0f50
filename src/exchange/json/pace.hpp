#pragma once

#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/paper.hpp"

#include <string>

namespace inkturn {

std::string json_of_pace(const Paper& paper, ExtraTime extra);

} // namespace inkturn
