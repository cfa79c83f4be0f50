#pragma once

#include "inkturn/retry/candidate.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What was set for a class.
struct TimesOfClass {
    std::string name;
    StatedTimes times;
};

/// The candidate's time, of which `shown` are the dates to tell, and what of it their classes say.
std::string json_of_availability(const Candidate& candidate, const Availability& shown,
                                 const std::vector<TimesOfClass>& classes);
std::string json_of(const TimesOfClass& of_class);

} // namespace inkturn
