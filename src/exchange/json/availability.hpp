#pragma once

#include "inkturn/retry/availability.hpp"

#include <string>

namespace inkturn {

std::string json_of_availability(const std::string& candidate, const Availability& availability);

} // namespace inkturn
