#pragma once

#include "inkturn/statistics/trend.hpp"

#include <string>

namespace inkturn {

std::string json_of(const Trend& trend);

} // namespace inkturn
