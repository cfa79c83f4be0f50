#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/day_span.hpp"
#include "inkturn/base/time.hpp"

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

} // namespace inkturn
