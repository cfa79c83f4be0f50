#pragma once

#include "inkturn/retry/returned.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What came back of a class's retries, by candidate, in their order.
std::string json_of(DaySpan span, const std::vector<ReturnedWork>& work);

} // namespace inkturn
