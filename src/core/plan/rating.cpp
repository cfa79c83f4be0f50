#include "inkturn/plan/rating.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/statistics/topic.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 3> understanding_names{"not-understood", "shaky", "sure"};
constexpr std::size_t longest_rated = 200; ///< as a paper's subject and topics

using MarksByTopic = std::map<std::pair<std::string, std::string>, Marks>;

MarksByTopic marks_tried(const Candidate& candidate, const std::vector<Copies>& copies) {
    MarksByTopic tried;
    for (const PaperMarks& marks : unseen_marks(candidate, copies))
        for (std::size_t i = 0; i < marks.parts.size(); ++i) {
            const Part& part = marks.paper->parts()[i];
            if (!part.topic.empty() && marks.parts[i].counts() && marks.parts[i].attempted())
                tried[{marks.paper->subject(), part.topic}] += part.max;
        }
    return tried;
}

} // namespace

std::string_view name(Understanding understanding) noexcept {
    return understanding_names[static_cast<std::size_t>(understanding)];
}

Understanding parse_understanding(std::string_view text) {
    const std::string typed = lower_case(text);
    std::vector<Understanding> meant;
    for (const Understanding one : all_understandings)
        if (!typed.empty() && name(one).substr(0, typed.size()) == typed)
            meant.push_back(one);
    if (meant.size() != 1)
        throw Error("'" + std::string(text) + "': rate a topic not-understood, shaky or sure");
    return meant.front();
}

void check_rating(const TopicRating& rating) {
    check_printable(rating.subject, longest_rated, "subject");
    check_printable(rating.topic, longest_rated, "topic");
    if (rating.topic.empty())
        throw Error("state the topic that is rated");
    check_day(rating.day);
}

std::vector<RatedTopic> rated_topics(const std::vector<TopicName>& topics, const Candidate& candidate,
                                     const std::vector<TopicRating>& ratings,
                                     const std::vector<Copies>& copies) {
    const MarksByTopic tried = marks_tried(candidate, copies);
    std::vector<RatedTopic> rated;
    for (const TopicName& topic : topics) {
        const auto marks = tried.find({topic.subject, topic.topic});
        RatedTopic one{topic, marks == tried.end() ? Marks(0) : marks->second, {}};
        for (const TopicRating& rating : ratings)
            if (rating.subject == topic.subject && rating.topic == topic.topic)
                one.rating = rating;
        rated.push_back(std::move(one));
    }
    return rated;
}

std::vector<TopicRating> ratings_that_count(const std::vector<RatedTopic>& topics) {
    std::vector<TopicRating> counting;
    for (const RatedTopic& topic : topics)
        if (topic.goes_by_rating())
            counting.push_back(*topic.rating);
    return counting;
}

} // namespace inkturn
