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

struct TopicDiagnosis;

struct TopicName {
    std::string subject;
    std::string topic;
};

/// A topic with what is known of it beforehand.
struct RatedTopic {
    TopicName name;
    Marks tried; ///< the maxima of the unseen parts on it that were attempted
    std::optional<TopicRating> rating;
    bool met = false;     ///< a part on it counted in a sitting, or was attempted
    bool weak = false;    ///< rated sure, and a weak topic by the marks, see weak_topics()
    bool checked = false; ///< rated not understood, relearned since, and then got in its check

    /// From so many marks tried on, the plan goes by the marks: their share is then known about as closely as
    /// a third of the scale, docs/method.md.
    static constexpr Marks outweighing{10};

    /// Marks that are firm enough to book relearning outweigh a rating of sure before that, and a check that
    /// was got one of not understood.
    bool goes_by_rating() const { return rating && tried < outweighing && !weak && !checked; }
    bool goes_by_marks() const { return tried > Marks(0) && !goes_by_rating(); }
};

/// In the order of the topics. A question counts in the first of its copies that was sat.
std::vector<RatedTopic> rated_topics(const std::vector<TopicName>& topics, const Candidate& candidate,
                                     const std::vector<TopicRating>& ratings,
                                     const std::vector<Copies>& copies = {});

/// The ratings that marks don't outweigh, in the order of the topics.
std::vector<TopicRating> ratings_that_count(const std::vector<RatedTopic>& topics);

/// The pieces of a topic rated not understood that were relearned: since it was rated or, where it was
/// relearned in full and marks of it went after that, since they went; see failed_after().
int pieces_relearned(const Candidate& candidate, const TopicRating& rating);

/// Of these ratings that count, the topics not understood that are still to be relearned.
std::vector<TopicName> rated_to_relearn(const Candidate& candidate, const std::vector<TopicRating>& ratings);

/// Advises to relearn those among the topics, as the plan does.
void add_rated_advice(std::vector<TopicDiagnosis>& topics, const Candidate& candidate,
                      const std::vector<RatedTopic>& rated);

} // namespace inkturn
