#include "exchange/json/ratings.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {
namespace {

Json value_of(const RatedTopic& topic) {
    const char* const goes_by = topic.goes_by_marks() ? "marks" : topic.goes_by_rating() ? "rating" : nullptr;
    return {{"subject", null_if_empty(topic.name.subject)},
            {"topic", topic.name.topic},
            {"rating", topic.rating ? Json(name(topic.rating->understanding)) : Json(nullptr)},
            {"rated_on", topic.rating ? Json(iso(topic.rating->day)) : Json(nullptr)},
            {"tried", topic.tried.count()},
            {"goes_by", goes_by ? Json(goes_by) : Json(nullptr)}};
}

} // namespace

std::string json_of(const std::vector<RatedTopic>& topics) {
    Json list = Json::array();
    for (const RatedTopic& topic : topics)
        list.push_back(value_of(topic));
    return text_of({{"topics", std::move(list)}, {"outweighing", RatedTopic::outweighing.count()}});
}

} // namespace inkturn
