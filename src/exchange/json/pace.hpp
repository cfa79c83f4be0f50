#pragma once

#include "inkturn/clock/pace.hpp"

#include <string>

namespace inkturn {

std::string json_of(const Pace& pace);

} // namespace inkturn
