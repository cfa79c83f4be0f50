#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/moment.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/lesson/lesson.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A candidate who asks for a place in a lesson, of those that are to be planned or are on file.
struct Wish {
    std::string candidate;
    std::vector<std::string> topics{}; ///< ascending; empty: any
    std::vector<Day> dates{};          ///< on which the candidate can come, ascending; empty: any
    std::optional<Day> asked_on{};
    Seconds asked_time{0}; ///< of that day, since midnight
    std::string remark{};
};

/// Those of the wish's topics that the lesson is on; nothing where it is on none of them, or on a day on
/// which the candidate can't come.
std::optional<PlaceAsked> wish_for(const Wish& wish, const Lesson& lesson, Moment at);

} // namespace inkturn
