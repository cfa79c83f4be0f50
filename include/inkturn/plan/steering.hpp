#pragma once

#include "inkturn/plan/timetable.hpp"
#include "inkturn/retry/candidate.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// Throws an Error that says why nothing can be decided about a retry: see check_can_be_taken().
void check_can_be_steered(const Candidate& candidate, const RetryId& id, Day today);

/// Names a paper to sit or a topic to relearn.
struct WorkName {
    WorkPurpose what; ///< sit or relearn
    std::string subject;
    std::string name; ///< the paper's id, the topic
};

/// Throws an Error that says why nothing can be decided about it: it is not in the plan, or was let go.
void check_can_be_steered(const Candidate& candidate, const TimetableRequest& request, const WorkName& work,
                          Day today);

/// Throws Error unless the work may come on the day asked for: from today on and within a year, before its
/// exam and on no exam's day, with room beside what else was asked for and what was done on that day, one
/// paper a day; and as check_can_be_steered() does.
void check_can_be_wanted(const Candidate& candidate, const TimetableRequest& request, const RetryId& id,
                         Day wanted, Day today);
void check_can_be_wanted(const Candidate& candidate, const TimetableRequest& request, const WorkName& work,
                         Day wanted, Day today);

/// The turn that brings a secured question round once more; its window counts from today. Throws Error where
/// it was never missed, is still open, or a later sitting of its paper replaces this one.
AskedAgain asked_again(const Candidate& candidate, const RetryId& id, Day today);

/// What was last done to a retry, which can be taken back.
enum class LastDone : std::uint8_t { let_go, wanted, asked_again, reattempt };

/// Of the turn that is open; of one that was recorded it is the re-attempt. A day asked for that has passed
/// is over. Throws Error where nothing was done, or something was done since.
LastDone last_done(const Candidate& candidate, const RetryId& id, Day today);

/// Open retries, the one worth most first: most missed marks, then the first to close, then the earliest
/// attempt; what was asked for comes before the rest.
std::vector<Retry> by_worth(std::vector<Retry> retries);

/// Of the retries that are late today all but the ten worth most, in that order.
std::vector<Retry> late_beyond_ten(const Candidate& candidate, Day today);

/// The least number of retries, those worth least, without which a plan was found that fits, all days chosen
/// anew; least worth first. Nothing where max_let_go of them don't help or none would stay; none that was
/// asked for is among them.
std::optional<std::vector<Retry>> least_to_let_go(const Candidate& candidate, const TimetableRequest& request,
                                                  Day today);

constexpr std::size_t max_let_go = 24; ///< each number up to this is tried

/// The candidate without these retries.
Candidate without(Candidate candidate, const std::vector<Retry>& let_go, const LetGo& why);

} // namespace inkturn
