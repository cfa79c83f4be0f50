#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/interval.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/retry.hpp"
#include "inkturn/retry/turn_count.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

namespace inkturn {

/// A sitting as one of a series.
struct TrendSitting {
    /// Working time, where a clock ran, and the time off between.
    struct WorkingTime {
        Seconds in_time;
        Seconds overtime;
        Seconds off{0};
    };

    SittingId id{};
    std::shared_ptr<const Paper> paper;
    Day day;
    int time_sat;      ///< 1 the first time this paper was sat, 2 when sat again
    Totals totals;     ///< their max is above 0
    Marks reach;       ///< by the clock where one ran, else by the marks: see reached()
    Seconds allowance; ///< with extra time
    std::optional<WorkingTime> worked;

    /// What a mark took: working time before the ink changed ÷ reach. Nothing without a clock or a reach.
    std::optional<double> seconds_per_mark() const;
    /// What it may take: allowance ÷ marks.
    double allowed_per_mark() const;
};

/// Questions that a retry had secured and that were met again: at a turn asked for once more, or when the
/// paper was sat again.
struct SecuredAgain {
    std::size_t met = 0;
    std::size_t got = 0; ///< of them, by unaided marks

    /// Of got ÷ met, 95%; nothing where none was met.
    std::optional<Interval> interval() const;
};

struct Trend {
    std::vector<TrendSitting> sittings; ///< by day, then id: also those that a later one superseded
    std::vector<TurnCount> turns;       ///< ascending, those with a re-attempt
    SecuredAgain secured_again;
};

Trend trend(const Candidate& candidate);

} // namespace inkturn
