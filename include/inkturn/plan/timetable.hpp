#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/facts/recall.hpp"
#include "inkturn/plan/check.hpp"
#include "inkturn/plan/place.hpp"
#include "inkturn/plan/rating.hpp"
#include "inkturn/plan/relearn.hpp"
#include "inkturn/plan/sittings_ahead.hpp"
#include "inkturn/retry/candidate.hpp"

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

namespace inkturn {

/// In the order of the alternatives of WorkItem::Work.
enum class WorkKind : std::uint8_t { retry, sit, relearn, check, recall };

std::string_view name(WorkKind kind) noexcept;

/// A piece of work, with the day chosen for it.
struct WorkItem {
    using Work = std::variant<Retry, PaperToSit, TopicToRelearn, TopicToCheck, RecallGroup>;

    Work work;
    Seconds duration;
    std::optional<DaySpan> possible_days; ///< the days it might fall on, the one chosen among them; nothing:
                                          ///< none
    std::optional<Day> day;               ///< nothing: no day is left, or none has room

    WorkKind kind() const { return static_cast<WorkKind>(work.index()); }
};

/// Room that is kept on a day for a retry that a paper will bring, or for what is missed once more.
struct Reservation {
    std::string subject; ///< of the paper
    std::string paper;   ///< its id; empty: one that is not on file yet
    Day day;
    Seconds duration;
    int turn = 1; ///< of the retry
};

/// For which turns of retries room is reserved; the days of all work are the same.
enum class TurnsReserved : std::uint8_t {
    first, ///< of those that papers will bring
    all
};

/// What a timetable is made of, beside the candidate.
struct TimetableRequest {
    std::vector<std::shared_ptr<const Paper>> papers; ///< on file
    std::set<std::string> on_desk;                    ///< ids of papers that are in a script of the candidate
    std::vector<Fact> facts;
    std::vector<Sheet> sheets; ///< of the candidate
    MissedShare share;
    PlacementMode mode = PlacementMode::keep;
    TurnsReserved turns = TurnsReserved::all;
    PaperIds of_others{}; ///< see papers_of_others()
    PaperIds drawn{};     ///< of them, those drawn from questions of others
    /// Of the candidate, where they were worked out before: many plans for one candidate share them.
    std::shared_ptr<const std::vector<WeakTopic>> weak{};
    std::vector<TopicRating> ratings{}; ///< of the candidate: those that count, see ratings_that_count()
    /// What may be drawn for checks, in any paper; null: questions are taken to be there.
    std::shared_ptr<const std::vector<UnseenQuestion>> unseen{};
    std::vector<UnseenPaper> drawn_unseen{}; ///< those that a check may be made with
    QuestionsMet met{};                      ///< by the candidate
    std::vector<TopicOnDesk> topics_on_desk{};
};

SittingsRequest sittings_of(const TimetableRequest& request);

/// The same request with the candidate's weak topics.
TimetableRequest with_weak_topics(TimetableRequest request, const Candidate& candidate);

/// All the work up to the exams, a day each.
struct Timetable {
    std::vector<WorkItem> items;           ///< by day, of a day by kind; those without a day last
    std::vector<Reservation> reservations; ///< by day
    std::vector<SubjectAhead> subjects;
    MissedShare share;
    std::vector<TopicRating> by_ratings{};   ///< of the topics for which it goes by them
    std::vector<UncheckedTopic> unchecked{}; ///< that nothing can be drawn for
    std::size_t first_things = 0;            ///< of the first days, when there are no marks yet; else 0
    Seconds expected{0};           ///< the retries that the papers with a day will bring before the exam
    Seconds expected_again{0};     ///< what is missed once more, of these and of the open ones with a day
    Seconds again_without_room{0}; ///< of that, what no day has room for
    std::size_t reattempts = 0;    ///< of the candidate, by which that goes
    PlanFit fit = PlanFit::fits;
    Seconds short_by{0}; ///< what no plan has a day for, retries to come among it: proven, kept days or not
    Seconds not_placed_time{0}; ///< what has no day, room for retries to come among it
    Seconds outside{0};         ///< what has a day that its window does not hold
    Day today;
    Seconds done{0};                ///< today, of all kinds
    Seconds longest_day{0};         ///< the most that a day ahead has
    double fullest_share = 0;       ///< largest L/c of a day with work; L: planned, done today, reserved
    double fullest_share_bound = 0; ///< of any plan of what has a day, each piece in its window
    double evenness = 0;            ///< Σ L²/c over days with c > 0, in seconds
    double evenness_bound = 0;      ///< as that of fullest_share

    std::vector<WorkItem> not_placed() const; ///< days are left, and none has room
};

/// Places everything by place_work(): docs/method.md. With PlacementMode::keep days on file stay where they
/// are still possible, unless all placed anew leaves less without a day. What was done today counts.
Timetable timetable(const Candidate& candidate, const TimetableRequest& request, Day today);

/// Whether timetable() finds a plan that fits, with the days kept as far as it keeps them.
bool has_plan(const Candidate& candidate, const TimetableRequest& request, Day today);

/// What timetable() places, for place_work().
WorkAhead work_ahead(const Candidate& candidate, const TimetableRequest& request, Day today);

/// Compares the days of its retries with those on file.
void compare_with_file(const Candidate& candidate, Timetable& timetable);

/// The retries among its items.
std::vector<Retry> retries_of(const Timetable& timetable);

/// The candidate with the days of the timetable as those on file.
Candidate with_days_of(const Timetable& timetable, Candidate candidate);

/// The days on file that were chosen for facts.
FactDays fact_days(const std::vector<PlannedWork>& planned);

/// The days that it chose for all but the retries, and its room for first turns, to be kept on file.
std::vector<PlannedWork> planned_work(const Timetable& timetable);

} // namespace inkturn
