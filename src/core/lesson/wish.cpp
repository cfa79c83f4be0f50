#include "inkturn/lesson/wish.hpp"

#include <algorithm>
#include <iterator>

namespace inkturn {

std::optional<PlaceAsked> wish_for(const Wish& wish, const Lesson& lesson, Moment at) {
    if (!wish.dates.empty() &&
        std::find(wish.dates.begin(), wish.dates.end(), lesson.day) == wish.dates.end())
        return std::nullopt;
    PlaceAsked asked{wish.candidate, at, {}, wish.remark, PlaceState::asked};
    std::set_intersection(wish.topics.begin(), wish.topics.end(), lesson.topics.begin(), lesson.topics.end(),
                          std::back_inserter(asked.topics));
    if (asked.topics.empty() && !wish.topics.empty())
        return std::nullopt;
    if (asked.topics == lesson.topics)
        asked.topics.clear(); // all
    return asked;
}

} // namespace inkturn
