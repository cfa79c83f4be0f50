#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/time.hpp"

#include <optional>
#include <vector>

namespace inkturn {

/// The time available on consecutive days.
struct Capacity {
    Day first;
    std::vector<Seconds> available; ///< of first, first + 1, …; never negative; 0 on a day off
};

/// Work that is done on one day of a window.
struct Load {
    Day opens;                    ///< first day of the window, within the capacity's days
    Day closes;                   ///< last day, included, not before opens, within the capacity's days
    Seconds work;                 ///< above 0
    std::optional<Day> fixed_day; ///< stays there; may lie outside the window, within the capacity's days
};

/// What no placement can beat, because even loads that may be split over their windows can't.
struct SpreadBound {
    double fullest_share = 0;
    double evenness = 0; ///< Σ L²/c over days with c > 0, in seconds

    /// A run of days worked at one share in the best split placement, as the method takes them: fullest
    /// first.
    struct Interval {
        std::vector<Day> days; ///< ascending; with gaps where fuller intervals were taken out before
        double share;
    };
    std::vector<Interval> intervals;
};

/// The critical-interval method (Yao, Demers & Shenker 1995, "A scheduling model for reduced CPU energy")
/// with availability in place of length: take the interval whose enclosed windows ask the largest share
/// of what it has, fix it at that share, take it out, repeat. Where a load is placed its window counts,
/// not its day. Loads whose window has nothing available are left out.
SpreadBound spread_bound(const Capacity& capacity, const std::vector<Load>& loads);

} // namespace inkturn
