#include "exchange/document/ratings.hpp"

#include "exchange/document/strict_json.hpp"
#include "exchange/json/value.hpp"
#include "inkturn/store/plan.hpp"

#include <map>
#include <utility>

namespace inkturn {
namespace {

using RatingKey = std::pair<std::string, std::string>;

TopicRating read_rating(const JsonValue& value, Day today) {
    value.check_keys({"subject", "topic", "rating", "date"});
    TopicRating rating{value.at("subject").name(), value.at("topic").name(), Understanding::sure,
                       read_past_day(value.at("date"), today, "a rating")};
    const JsonValue said = value.at("rating");
    said.checked([&] {
        rating.understanding = parse_understanding(said.text());
        if (name(rating.understanding) != said.text())
            throw Error("'" + said.text() + "' is no rating: not-understood, shaky or sure");
    });
    value.checked([&] { check_rating(rating); });
    return rating;
}

} // namespace

void add_ratings(const std::vector<TopicRating>& ratings, Json& candidate) {
    for (const TopicRating& rating : ratings)
        candidate["topic_ratings"].push_back({{"subject", rating.subject},
                                              {"topic", rating.topic},
                                              {"rating", name(rating.understanding)},
                                              {"date", iso(rating.day)}});
}

std::vector<TopicRating> read_ratings(const JsonValue& value, Day today) {
    std::map<RatingKey, TopicRating> known;
    value.each_element([&](const JsonValue& element) {
        TopicRating rating = read_rating(element, today);
        RatingKey key(rating.subject, rating.topic);
        if (!known.emplace(std::move(key), std::move(rating)).second)
            element.refuse("the topic is rated twice");
    });
    std::vector<TopicRating> ratings;
    for (auto& [key, rating] : known)
        ratings.push_back(std::move(rating));
    return ratings;
}

void take_ratings(Store::Change& change, const std::string& code, const std::vector<TopicRating>& in_file,
                  const MergeOptions& options, Merge& merge) {
    std::map<RatingKey, TopicRating> here;
    for (TopicRating& rating : PlanOnFile::ratings(change.store(), code))
        here.emplace(RatingKey(rating.subject, rating.topic), rating);
    for (const TopicRating& rating : in_file) {
        const auto known = here.find({rating.subject, rating.topic});
        const bool is_new = known == here.end();
        if (!is_new && known->second.understanding == rating.understanding && known->second.day >= rating.day)
            continue;
        const bool contradicts = !is_new && known->second.day == rating.day;
        if (!is_new && !options.replace && known->second.day > rating.day)
            continue;
        if (contradicts && !options.replace) {
            merge.refuse("candidate " + code + ": topic '" + rating.topic + "' is rated " +
                         std::string(name(known->second.understanding)) + " here and " +
                         std::string(name(rating.understanding)) + " in the file, both on " +
                         iso(rating.day) + "; --replace takes the file's");
            continue;
        }
        PlanOnFile(change).rate(code, rating);
        ++(is_new ? merge.ratings_added : merge.ratings_replaced);
    }
}

} // namespace inkturn
