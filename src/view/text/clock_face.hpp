#pragma once

#include "inkturn/clock/clock.hpp"
#include "inkturn/desk/script.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What a clock shows at a moment, in three lines of at most 39 columns for a paper of up to 999 marks: the
/// time left or over, the part in hand and the time on it, the marks of the parts done against those expected
/// by now.
std::vector<std::string> clock_face(const Clock& clock, Moment now);

/// The result in words: working time, overtime, breaks, reach.
std::string clock_summary(const Clock& clock);

} // namespace inkturn
