#pragma once

#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/practice/draw.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A paper drawn from the stock, with the extra time for which the time was filled.
std::string json_of_drawn(const Paper& paper, const std::vector<Drawable>& questions, const Stock& stock,
                          Seconds time, ExtraTime extra);

} // namespace inkturn
