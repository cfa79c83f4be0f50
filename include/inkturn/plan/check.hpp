#pragma once

#include "inkturn/desk/script.hpp"
#include "inkturn/plan/relearn.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// A topic that was relearned in full, or the topics of a lesson that was attended, to be tried on questions
/// not seen before: retries alone can't show that they were learned, as theirs were.
struct TopicToCheck {
    std::string subject;
    std::string topic;                 ///< of a lesson its topics_text()
    Day relearned_on;                  ///< in full, or in the lesson
    WindowByExams by;                  ///< that of a retry, counted from that day; with a window
    bool late = false;                 ///< it closed before today
    std::vector<std::string> topics{}; ///< one, or those of the lesson
    std::string lesson{};              ///< its id; empty: relearned by oneself

    static constexpr std::size_t questions_after_lesson = 3;

    static constexpr Seconds duration{900};
};

/// A question that a candidate may be given unseen, on one of its topics.
struct UnseenQuestion {
    std::string subject; ///< of its paper
    std::string topic;
    Seconds allowance; ///< with the candidate's extra time
};

/// A drawn paper of which the candidate has met no question.
struct UnseenPaper {
    std::string id;
    std::string subject;
    std::vector<std::set<std::string>> topics; ///< of the parts of each question
    Seconds allowance;                         ///< with the candidate's extra time
};

/// What there is to check topics with.
struct PapersForChecks {
    std::vector<std::string> ids;   ///< of all papers on file, ascending
    std::vector<UnseenPaper> drawn; ///< ready to be sat
};

/// A topic of a script that is not marked through: it is being tried, with what result is not known yet.
struct TopicOnDesk {
    std::string subject;
    std::string topic;
    Day day; ///< of the script
};

/// A check for which no question can be drawn, so that it has no day.
struct UncheckedTopic {
    std::string subject;
    std::string topic;
    std::vector<std::string> papers; ///< ids of those to be sat that have a part on it
};

/// The latest day on which a topic was relearned in full: as a whole, or by the second of two halves; nothing
/// where it never was.
std::optional<Day> relearned_in_full(const Candidate& candidate, const std::string& subject,
                                     const std::string& topic);

/// Whether an hour recorded for a day is the second half alone: a first one was done by then, and the plan
/// does not ask for both.
bool is_second_half(const Candidate& candidate, const Relearned& relearned);

/// Whether a part on the topic was tried after the day, in a paper of the subject.
bool was_tried_after(const Candidate& candidate, const std::string& subject, const std::string& topic,
                     Day day);

/// The lesson that the candidate attended on these topics, see topics_text(), the latest of several; null
/// where there is none.
const LessonPlace* find_lesson_attended(const Candidate& candidate, const std::string& subject,
                                        const std::string& topics);

/// The first day after this one on which marks of the topic went, in a sitting or a re-attempt, for `method`
/// or for no stated reason.
std::optional<Day> failed_after(const Candidate& candidate, const std::string& subject,
                                const std::string& topic, Day day);

/// Whether one of the topics, relearned or taught on a day, was tried where its check may be: from the first
/// day of the check's window on, by the exams that were ahead then. What is tried sooner doesn't show that it
/// stays.
bool was_checked(const Candidate& candidate, const std::string& subject,
                 const std::vector<std::string>& topics, Day learned_on);

/// Whether a check of this subject and name is still to be made.
bool is_to_check(const Candidate& candidate, const std::string& subject, const std::string& topic);

/// By subject and topic.
std::vector<UntriedTopic> untried_topics(const Candidate& candidate);

/// By the day on which they were relearned, then by subject and topic: all relearned in full, or in a lesson,
/// and not checked since, but for those that are to be relearned again, and subjects whose exams leave no
/// day.
std::vector<TopicToCheck> topics_to_check(const Candidate& candidate,
                                          const std::vector<TopicToRelearn>& to_relearn, Day today);

/// The topics of the papers on a candidate's desk, of the parts that were set.
std::vector<TopicOnDesk> topics_on_desk(const std::vector<Script>& desk);

/// Whether a paper on the desk has a part on one of its topics, since it was relearned.
bool is_on_desk(const TopicToCheck& check, const std::vector<TopicOnDesk>& on_desk);

/// Whether an unseen question can be drawn for it, not longer than the check unless it is of a lesson.
bool can_be_drawn(const TopicToCheck& check, const std::vector<UnseenQuestion>& unseen);

/// The first of these papers that would do for it: each question on one of its topics, and together no longer
/// than the check unless it is of a lesson; null where none would.
const UnseenPaper* find_drawn(const TopicToCheck& check, const std::vector<UnseenPaper>& drawn);

} // namespace inkturn
