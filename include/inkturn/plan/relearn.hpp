#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/paper/copies.hpp"
#include "inkturn/retry/candidate.hpp"

#include <map>
#include <string>
#include <vector>

namespace inkturn {

/// A topic that the candidate's own marks say is to be relearned.
struct WeakTopic {
    std::string subject;
    std::string topic;
    double marks_a_paper; ///< lost on it in a paper like those sat
};

/// Those whose advice is to relearn them, for sure, see diagnosis.hpp, by what they cost, the costliest
/// first. Others' marks don't count here: a plan moves by the candidate's own facts alone. A question counts
/// in the first of its copies that was sat.
std::vector<WeakTopic> weak_topics(const Candidate& candidate, const std::vector<Copies>& copies = {});

/// A weak topic to work through again: marks of questions that are to be retried went for `method`.
struct TopicToRelearn {
    std::string subject;
    std::string topic;
    Marks lost;                ///< for this reason, in the latest attempts
    DaySpan possible_days;     ///< today to the day before the last one for the first of its retries; today
                               ///< at least, and a week where that is late
    int piece = 1;             ///< of `pieces`, from 1
    std::optional<Day> exam{}; ///< of its first retry

    static constexpr int pieces = 2;
    static constexpr Seconds time_of_piece = Relearned::time_of_half;
};

/// The pieces of a topic that were done from a day on, TopicToRelearn::pieces at most.
int pieces_relearned(const std::vector<Relearned>& relearned, const std::string& subject,
                     const std::string& topic, Day since);

/// In the order of the weak topics, then those that a day was asked for; each in all its pieces. Left out are
/// those done since the marks went, and what was let go. `retries` are the candidate's open ones, `weak` the
/// candidate's weak topics.
std::vector<TopicToRelearn> topics_to_relearn(const Candidate& candidate, const std::vector<WeakTopic>& weak,
                                              const std::vector<Retry>& retries, Day today);

/// The same of every topic that open retries lost marks on for `method`, weak or not: what a day may be asked
/// for.
std::vector<TopicToRelearn> topics_that_may_be_relearned(const Candidate& candidate,
                                                         const std::vector<Retry>& retries, Day today);

/// The marks that the attempt before a retry lost for `method`, by topic, where that is stated.
std::map<std::string, Marks> lost_for_method(const Candidate& candidate, const Retry& retry);

} // namespace inkturn
