#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/lesson/lesson.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/retry/exam.hpp"
#include "inkturn/retry/planned_work.hpp"
#include "inkturn/retry/retry.hpp"
#include "inkturn/retry/steering.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The day chosen for a question's open turn.
struct Placement {
    SittingId sitting{};
    std::string question;
    Day day;
};

/// What is on file about one candidate, and their exams.
struct Candidate {
    std::string code;
    std::vector<SittingRecord> sittings; ///< by day, then id
    std::vector<Placement> placements;   ///< at most one per sitting and question
    Availability availability;           ///< their own times over those of their classes
    std::vector<Exam> exams;             ///< those that count for them, see exams_that_count()
    std::vector<PlannedWork> planned;    ///< days chosen for work other than retries
    std::optional<Day> planned_for{};    ///< the day for which these and the placements were chosen
    std::vector<Relearned> relearned;    ///< by day
    PlanWishes wishes;
    std::vector<SteeredRetry> steered_retries{}; ///< at most one per sitting and question
    std::vector<SteeredWork> steered_work{};     ///< at most one per kind, subject and name
    std::optional<ExtraTime> extra_time{};       ///< of sittings to come; nothing: none is stated
    std::vector<LessonPlace> lessons{};          ///< that the candidate comes or came to, by day
    StatedTimes own_times{};                     ///< of what `availability` is made
};

/// What was decided about the open turn of a question.
Steering steering_of(const Candidate& candidate, SittingId sitting, std::string_view question);
/// What was decided about a paper or a topic.
Steering steering_of(const Candidate& candidate, WorkPurpose what, std::string_view subject,
                     std::string_view name);

/// Throws Error unless each sitting has its paper, marks for all its parts, and re-attempts of its questions
/// with theirs, and the availability can be, as Store::candidate() gives them. Functions that go through a
/// candidate's sittings begin with it.
void check_whole(const Candidate& candidate);

/// Whether planned work is still to be done: a paper is until it is sat, a check of a topic until one of its
/// papers is. A topic once relearned is off the plan; for facts, see their sheets.
bool is_to_do(const Candidate& candidate, const PlannedWork& planned);

/// Throws Error unless it has 1 to 64 printable characters, no blank at either end.
void check_candidate_code(std::string_view code);
void check_class_name(std::string_view name);

/// A question that is to be attempted again.
struct Retry {
    RetryId id;
    std::string candidate;
    std::shared_ptr<const Paper> paper;
    std::size_t question = 0; ///< position in Paper::questions()
    Marks missed_marks;
    Seconds allowance{0};
    Day dropped_on;
    std::optional<Day> exam;              ///< ends its window: the first still ahead that leaves a day
    std::optional<Window> window;         ///< nothing: no day is left, or the exams are over
    std::optional<DaySpan> possible_days; ///< those left of the window; late: from today on
    std::optional<Day> kept_day;          ///< on file
    std::optional<Day> day;               ///< nothing: no day is left or has room
    bool late = false;                    ///< its window closed before today
    bool outside_window = false;          ///< on a day that its window, which is still open, does not hold
    bool day_is_new = false;              ///< the day is not the one on file
    std::optional<Day> wanted{};          ///< the day that was asked for, until it passes
    bool asked_again = false;             ///< secured, and asked for once more
    std::optional<Question> counted{};    ///< the parts of the question that counted, where not all did

    /// What it asks for.
    const Question& paper_question() const { return counted ? *counted : paper->question(question); }
};

/// Whether placements on file hold.
enum class PlacementMode : std::uint8_t {
    keep, ///< those that are still possible stay
    again ///< everything is placed anew
};

/// The open retries of a candidate in the order in which they were dropped, none with a day yet, without
/// those that were let go. A later sitting of the same paper replaces an earlier one.
std::vector<Retry> retries_to_place(const Candidate& candidate, Day today);

/// Whether an exam that is ahead leaves it no day; not after the last exam, when retries rest.
bool has_no_day_left(const Retry& retry, const std::vector<Exam>& exams, Day today);

/// Gives it its day.
void give_day(Retry& retry, std::optional<Day> day);

/// What was sat, retried and relearned on a day, with the marking of what was sat.
Seconds time_worked(const Candidate& candidate, Day day);

/// The open retries of a candidate, each with a day beside the work that has one on file, by place_work(): by
/// day, those without one last, then in the order in which they were dropped.
std::vector<Retry> open_retries(const Candidate& candidate, Day today,
                                PlacementMode mode = PlacementMode::keep);

/// The window of a question's open turn. Nothing where none is open, or the exam leaves none. Throws Error
/// where the candidate has no such sitting, or its paper no such question.
std::optional<Window> window_of(const Candidate& candidate, const RetryId& id, Day today);

/// The question that a retry names. Throws Error where there is no such sitting or question, or it was not
/// missed.
const Question& get_missed_question(const Candidate& candidate, const RetryId& id);

/// The question that a retry asks for. Throws an Error that says why it can't be re-attempted: no such
/// question, never missed, missed too little by the candidate's rule, already recorded, replaced by a later
/// sitting, or a day before the question was missed or after today.
const Question& check_can_be_taken(const Candidate& candidate, const RetryId& id, Day day, Day today);

/// The parts that a re-attempt may leave out stay out unless `only` is nothing: then it tries all that
/// counted in the sitting. Throws Error as check_can_be_taken() does, and where `only` names what did not
/// count, or leaves out what was missed in the sitting or since.
std::vector<std::size_t> parts_tried(const Candidate& candidate, const RetryId& id,
                                     const std::optional<std::vector<std::size_t>>& only, Day day, Day today);

/// The re-attempt with its marks read from the entries, to be added to the sitting's record. Throws Error as
/// parts_tried() does.
Reattempt take_retry(const Candidate& candidate, const RetryId& id, const std::vector<Entry>& entries,
                     std::optional<Rest> rest, Day day, Day today,
                     const std::optional<std::vector<std::size_t>>& only = {});

/// The record of a sitting, or an Error that names the candidate.
const SittingRecord& get_sitting(const Candidate& candidate, SittingId id);

/// Throws Error where a sitting may not replace the one on file: its day is after today or after a
/// re-attempt, or its marks leave a recorded re-attempt without marks lost before it, whatever rule decides
/// on retries now.
void check_can_replace(const Paper& paper, const Sitting& sitting, const SittingRecord& on_file, Day today);

/// Throws Error where no such re-attempt was recorded, or a later turn builds on it: one that was recorded,
/// let go or asked for again.
void check_can_be_undone(const Candidate& candidate, const RetryId& id);

} // namespace inkturn
