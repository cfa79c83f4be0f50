#pragma once

#include "inkturn/desk/cost.hpp"
#include "inkturn/desk/part_on_clock.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "view/text/table.hpp"

#include <cstddef>
#include <optional>
#include <string>

namespace inkturn {

/// What a marker needs to know about a part: `Part 2a, 4 marks: M1 A1 B2. In time 5:10 of 4:48. So far
/// 2+1:slip.` `seen`: null if no clock ran. In lines of at most `width` columns, 20 or more.
std::string marking_text(const Part& part, const PartOnClock* seen, const std::optional<PartMarks>& so_far,
                         std::size_t width = text_width());

/// `2 in time, 1 overtime, 1 corrected`.
std::string inks_text(const PartMarks& marks);

/// What pace, knowledge and slips cost, one line each.
std::string cost_text(const Cost& cost);

/// `Slow: part 7b took 15:10 instead of 7:12, part 2a ...`, in lines; empty if none was slow.
std::string slow_text(const Clock& clock);

} // namespace inkturn
