#pragma once

#include "inkturn/clock/clock.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"

#include <cstddef>
#include <vector>

namespace inkturn {

/// The marks that were not earned in time, by what cost them. They sum to the maximum less the marks in time.
struct Cost {
    // Pace
    Marks overtime;      ///< earned, but after the ink changed
    Marks unfinished;    ///< lost for this reason
    Marks not_attempted; ///< of parts not attempted, no reason being stated

    // Knowledge
    Marks method;
    Marks recall;
    Marks unstated; ///< lost in parts that were attempted, no reason being stated

    // Slips
    Marks slip;
    Marks misread;

    Marks pace() const { return overtime + unfinished + not_attempted; }
    Marks knowledge() const { return method + recall + unstated; }
    Marks slips() const { return slip + misread; }
};

Cost cost(const Paper& paper, const std::vector<PartMarks>& parts);

/// A part on which work took much longer than its allowance.
struct SlowPart {
    std::size_t part; ///< position in Clock::parts()
    Seconds worked;   ///< in time and overtime
};

/// Those above their allowance by half of it or more, and by a minute at least: the ones farthest above it
/// first, then in the order of the parts; five at most.
std::vector<SlowPart> slow_parts(const Clock& clock);

} // namespace inkturn
