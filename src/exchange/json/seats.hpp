#pragma once

#include "inkturn/seats/lost_marks.hpp"
#include "inkturn/seats/seats.hpp"

#include <string>

namespace inkturn {

/// A plan found on this basis, `lost` with the wishes kept alone.
std::string json_of(const SeatPlan& plan, const LostMarks& lost, const SeatsBasis& basis);

} // namespace inkturn
