#pragma once

#include "inkturn/seats/lost_marks.hpp"
#include "inkturn/seats/seats.hpp"

#include <string>

namespace inkturn {

/// A plan found with these weights.
std::string json_of(const SeatPlan& plan, const LostMarks& lost, SeatMeasure measure);

} // namespace inkturn
