#pragma once

#include "inkturn/paper/copies.hpp"
#include "inkturn/retry/candidate.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// How well a candidate says a topic is understood.
enum class Understanding : std::uint8_t { not_understood, shaky, sure };

constexpr std::array<Understanding, 3> all_understandings{Understanding::not_understood, Understanding::shaky,
                                                          Understanding::sure};

/// `not-understood`, `shaky`, `sure`.
std::string_view name(Understanding understanding) noexcept;
/// By its name or any beginning of it that is no other's, in any case. Throws Error.
Understanding parse_understanding(std::string_view text);

/// What a candidate said of a topic, on the day it was said last.
struct TopicRating {
    std::string subject;
    std::string topic;
    Understanding understanding;
    Day day;
};

/// Throws Error unless the topic is stated, its texts have at most 200 printable characters, and the day is
/// an accepted one.
void check_rating(const TopicRating& rating);

struct TopicName {
    std::string subject;
    std::string topic;
};

/// A topic with what is known of it beforehand.
struct RatedTopic {
    TopicName name;
    Marks tried; ///< the maxima of the unseen parts on it that were attempted
    std::optional<TopicRating> rating;
    bool met = false;  ///< a part on it counted in a sitting, or was attempted
    bool weak = false; ///< rated sure, and a weak topic by the marks, see weak_topics()

    /// From so many marks tried on, the plan goes by the marks: their share is then known about as closely as
    /// a third of the scale, docs/method.md.
    static constexpr Marks outweighing{10};

    /// Marks that are firm enough to book relearning outweigh a rating of sure before that.
    bool goes_by_rating() const { return rating && tried < outweighing && !weak; }
    bool goes_by_marks() const { return tried > Marks(0) && !goes_by_rating(); }
};

/// In the order of the topics. A question counts in the first of its copies that was sat.
std::vector<RatedTopic> rated_topics(const std::vector<TopicName>& topics, const Candidate& candidate,
                                     const std::vector<TopicRating>& ratings,
                                     const std::vector<Copies>& copies = {});

/// The ratings that marks don't outweigh, in the order of the topics.
std::vector<TopicRating> ratings_that_count(const std::vector<RatedTopic>& topics);

} // namespace inkturn
