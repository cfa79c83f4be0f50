#include "inkturn/plan/rating.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/plan/check.hpp"
#include "inkturn/plan/relearn.hpp"
#include "inkturn/statistics/diagnosis.hpp"
#include "inkturn/statistics/topic.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 3> understanding_names{"not-understood", "shaky", "sure"};
constexpr std::size_t longest_rated = 200; ///< as a paper's subject and topics

struct Known {
    Marks tried;
    bool met = false;
};

using KnownByTopic = std::map<std::pair<std::string, std::string>, Known>;

KnownByTopic known_by_topic(const Candidate& candidate, const std::vector<Copies>& copies) {
    KnownByTopic known;
    for (const PaperMarks& marks : unseen_marks(candidate, copies))
        for (std::size_t i = 0; i < marks.parts.size(); ++i) {
            const Part& part = marks.paper->parts()[i];
            const bool counts = marks.parts[i].counts();
            const bool attempted = marks.parts[i].attempted();
            if (part.topic.empty() || (!counts && !attempted))
                continue;
            Known& topic = known[{marks.paper->subject(), part.topic}];
            topic.met = true;
            if (counts && attempted)
                topic.tried += part.max;
        }
    return known;
}

bool may_be_outweighed(const RatedTopic& topic) {
    return topic.rating && topic.rating->understanding == Understanding::sure && topic.met;
}

void find_weak(std::vector<RatedTopic>& topics, const Candidate& candidate,
               const std::vector<Copies>& copies) {
    if (std::none_of(topics.begin(), topics.end(), may_be_outweighed))
        return;
    const std::vector<WeakTopic> weak = weak_topics(candidate, copies);
    for (RatedTopic& topic : topics)
        topic.weak =
            may_be_outweighed(topic) && std::any_of(weak.begin(), weak.end(), [&](const WeakTopic& one) {
                return one.subject == topic.name.subject && one.topic == topic.name.topic;
            });
}

/// The day on which a topic rated not understood was relearned in full since; nothing where it wasn't.
std::optional<Day> relearned_since(const Candidate& candidate, const TopicRating& rating) {
    const auto day = relearned_in_full(candidate, rating.subject, rating.topic);
    return day >= rating.day ? day : std::nullopt;
}

/// Whether the check of a topic rated not understood shows that it was learned.
bool was_got_in_check(const Candidate& candidate, const TopicRating& rating) {
    if (rating.understanding != Understanding::not_understood)
        return false;
    const auto day = relearned_since(candidate, rating);
    return day && was_checked(candidate, rating.subject, {rating.topic}, *day) &&
           !failed_after(candidate, rating.subject, rating.topic, *day);
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
    const KnownByTopic known = known_by_topic(candidate, copies);
    std::vector<RatedTopic> rated;
    for (const TopicName& topic : topics) {
        const auto found = known.find({topic.subject, topic.topic});
        const Known of_topic = found == known.end() ? Known{} : found->second;
        RatedTopic one{topic, of_topic.tried, {}, of_topic.met};
        for (const TopicRating& rating : ratings)
            if (rating.subject == topic.subject && rating.topic == topic.topic)
                one.rating = rating;
        one.checked = one.rating && was_got_in_check(candidate, *one.rating);
        rated.push_back(std::move(one));
    }
    find_weak(rated, candidate, copies);
    return rated;
}

std::vector<TopicRating> ratings_that_count(const std::vector<RatedTopic>& topics) {
    std::vector<TopicRating> counting;
    for (const RatedTopic& topic : topics)
        if (topic.goes_by_rating())
            counting.push_back(*topic.rating);
    return counting;
}

int pieces_relearned(const Candidate& candidate, const TopicRating& rating) {
    Day since = rating.day;
    if (const auto relearned = relearned_since(candidate, rating))
        since = failed_after(candidate, rating.subject, rating.topic, *relearned).value_or(since);
    return pieces_relearned(candidate.relearned, rating.subject, rating.topic, since);
}

std::vector<TopicName> rated_to_relearn(const Candidate& candidate, const std::vector<TopicRating>& ratings) {
    std::vector<TopicName> topics;
    for (const TopicRating& rating : ratings)
        if (rating.understanding == Understanding::not_understood &&
            !steering_of(candidate, WorkPurpose::relearn, rating.subject, rating.topic).let_go &&
            pieces_relearned(candidate, rating) < TopicToRelearn::pieces)
            topics.push_back({rating.subject, rating.topic});
    return topics;
}

void add_rated_advice(std::vector<TopicDiagnosis>& topics, const Candidate& candidate,
                      const std::vector<RatedTopic>& rated) {
    for (const TopicName& name : rated_to_relearn(candidate, ratings_that_count(rated)))
        for (TopicDiagnosis& topic : topics)
            if (topic.subject == name.subject && topic.topic == name.topic) {
                topic.advice = TopicAdvice{Advice::relearn, true, true};
                topic.relearned.clear();
            }
}

} // namespace inkturn
