#pragma once

#include "inkturn/clock/clock.hpp"
#include "view/text/table.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// Marks against minutes worked, in printable ASCII and 16 lines: an `o` where a part was left for the first
/// time, at the marks done; the marks expected as a dotted line; the change of ink as an upright one.
/// `points` as in ClockRecord; `marks` of all the parts. `width` in columns, 40 to 80.
std::string pace_chart_text(const std::vector<ClockPoint>& points, Seconds allowance, Marks marks,
                            std::size_t width = text_width());

/// One row per part that was set or worked on, and their sum, marks and allowance being those that count:
/// marks, allowance, working time before and after the change of ink, and how far that is above (+) or below
/// (-) the allowance. `-` for a part without working time.
Table part_times_table(const Clock& clock, const std::vector<PartTime>& times);

} // namespace inkturn
