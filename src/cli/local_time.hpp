#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/moment.hpp"
#include "inkturn/base/time.hpp"

#include <string>

namespace inkturn {

// Moments on the wall clock of this machine (TZ, else /etc/localtime).

Moment moment_now();
Day local_day(Moment at);

/// Since midnight, as the wall clock shows it.
Seconds local_time_of_day(Moment at);

/// A time of day on that day. If the clocks skip it or show it twice, the earlier reading.
Moment local_moment(Day day, Seconds since_midnight);

/// The first moment at or after `earliest` when the wall clock shows the time.
Moment first_local_moment(Seconds since_midnight, Moment earliest);

/// `09:00:30`.
std::string local_time_text(Moment at);

} // namespace inkturn
