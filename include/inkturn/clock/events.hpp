#pragma once

#include "inkturn/base/moment.hpp"
#include "inkturn/base/problem.hpp"
#include "inkturn/clock/clock.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Reads a sitting noted by hand, one event per line, each after a time of day (see parse_time_of_day()):
///
///     09:00 start 1       # or start alone: the first part
///     09:06:30 2a         # goes to part 2a
///     09:40 rest
///     09:45 work
///     10:31 hand in
///
/// `#` begins a comment, empty lines are skipped, upper case counts as lower case. `labels` are those of the
/// clock's parts, short forms; `midnight` begins the day of the first event. The first time more than twelve
/// hours before the last line's is taken as the next day's.
///
/// Problems: a time, word or part that can't be read, times out of order, what a Clock refuses, a beginning
/// other than start and an end other than hand in. The events are complete only if there are none.
std::vector<ClockEvent> read_events(std::string_view text, const std::vector<std::string>& labels,
                                    Moment midnight, std::vector<Problem>& problems);

} // namespace inkturn
