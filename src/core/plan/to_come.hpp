#pragma once

#include "inkturn/plan/place.hpp"

#include <vector>

namespace inkturn {

/// What has a window and no day of the first turns that papers will bring. Later turns yield to all else: a
/// plan fits without room for them, and no kept day is given up for it.
Seconds first_turns_without_day(const std::vector<WorkPiece>& pieces, const WorkPlan& plan);

} // namespace inkturn
