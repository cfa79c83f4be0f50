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

/// How a placement weighs on the days. Smaller is better, compared in this order.
struct PlacementCost {
    Seconds over{0};       ///< total time above what is available
    double evenness = 0;   ///< Σ L²/c over days with c > 0, in seconds: least where shares are equal
    long long day_sum = 0; ///< Σ of the days' distances from the capacity's first: earlier is better
};

/// Chooses a day in its window for each load that has none, minimising Weight lexicographically; a day off is
/// used only where the window has no other. Same input, same answer. Up to seven loads with a choice of days
/// are placed exactly (windows of six days and somewhat beyond); more by descent over moves, swaps and
/// chains. Returns a day a load, in their order.
std::vector<Day> spread(const Capacity& capacity, const std::vector<Load>& loads);

/// The weight of a placement, one day a load.
PlacementCost placement_cost(const Capacity& capacity, const std::vector<Load>& loads,
                             const std::vector<Day>& days);

/// The largest share of a day (asked ÷ available over days with availability); 0 where nothing is asked.
double fullest_share(const Capacity& capacity, const std::vector<Load>& loads, const std::vector<Day>& days);

/// What no placement can beat, because even loads that may be split over their windows can't.
struct SpreadBound {
    double fullest_share = 0;
    double evenness = 0; ///< as in Weight, in seconds

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
