#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/plan/spread.hpp"

#include <optional>
#include <vector>

namespace inkturn {

/// Work that is done in one piece, on a day which has room for all of it: a paper to sit.
struct Block {
    std::vector<DaySpan> spans;   ///< days it may take, those preferred first, within the capacity's days
    Seconds work;                 ///< above 0
    std::optional<Day> fixed_day; ///< stays there
    std::vector<Seconds>
        expected_retries;          ///< retries that it will bring, each above 0; room is kept in their window
    std::optional<Day> exam;       ///< ends that window, see retry_window()
    std::optional<Day> kept_day{}; ///< stays there unless it can be in time; a day that it may take
    std::optional<Day> in_time{};  ///< the last day that is; nothing: all are
    std::vector<Day> never_on{};   ///< days that it may not take
};

/// A day for each piece of work.
struct Arrangement {
    std::vector<Day> loads;                 ///< in their order
    std::vector<std::optional<Day>> blocks; ///< in their order; nothing: it does not fit
    /// Foreseen retries of the blocks that have a day, with the day on which room is kept.
    struct ExpectedRetry {
        std::size_t block;
        Day day;
        Seconds work;
    };
    std::vector<ExpectedRetry> expected_retries;
    Seconds expected_without_day{0}; ///< of blocks that have a day: no day is left for it

    Seconds over{0};       ///< total time above what is available, foreseen work among it
    double evenness = 0;   ///< as in Weight
    long long day_sum = 0; ///< as in Weight, blocks among it
};

/// Chooses a day for each, no two blocks on one. Minimises, in this order: the time above what is
/// available; the work of blocks left out; how many blocks are not in time; how many leave the day kept; the
/// sum of the positions of the spans that blocks take; evenness; the sum of the days. Loads that are placed
/// keep their day, save on days that would be asked more than they have. Same input, same answer. Few blocks
/// with few days each beside loads that spread() places exactly are arranged exactly; more by descent, a
/// fixed amount of work.
Arrangement arrange(const Capacity& capacity, const std::vector<Load>& loads,
                    const std::vector<Block>& blocks);

/// What the sum is short by: time above what is available, and the work of blocks left out with what it would
/// bring. Without the search for the evenest days, so that arrange() may do with less and never needs more.
Seconds shortfall(const Capacity& capacity, const std::vector<Load>& loads, const std::vector<Block>& blocks);

} // namespace inkturn
