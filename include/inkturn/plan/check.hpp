#pragma once

#include "inkturn/plan/relearn.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A topic that was relearned in full, to be tried on questions not seen before: its retries alone can't show
/// that it was learned, as theirs were.
struct TopicToCheck {
    std::string subject;
    std::string topic;
    Day relearned_on;  ///< in full
    WindowByExams by;  ///< that of a retry, counted from that day; with a window
    bool late = false; ///< it closed before today

    static constexpr Seconds duration{900};
};

/// The latest day on which a topic was relearned in full: as a whole, or by the second of two halves; nothing
/// where it never was.
std::optional<Day> relearned_in_full(const Candidate& candidate, const std::string& subject,
                                     const std::string& topic);

/// Whether a paper of the subject with a part on the topic was sat after the day.
bool was_tried_after(const Candidate& candidate, const std::string& subject, const std::string& topic,
                     Day day);

/// By subject and topic.
std::vector<UntriedTopic> untried_topics(const Candidate& candidate);

/// By the day on which they were relearned, then by subject and topic: all relearned in full and not tried
/// since, but for those that are to be relearned again, and subjects whose exams leave no day.
std::vector<TopicToCheck> topics_to_check(const Candidate& candidate,
                                          const std::vector<TopicToRelearn>& to_relearn, Day today);

} // namespace inkturn
