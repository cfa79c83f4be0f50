#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/plan/timetable.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/retry/candidate.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What one day asks of a candidate.
struct PlannedDay {
    Day day;
    Seconds available{0};
    Seconds planned{0};  ///< by the items
    Seconds reserved{0}; ///< room kept for retries that papers will bring
    Seconds done{0};     ///< on today: what was worked already
    bool exam = false;   ///< an exam or a mock is on it: it has no time, unless work had no other day
    std::vector<WorkItem> items;
    std::vector<LessonPlace> lessons{}; ///< their time is not among what is available
    bool mock = false;                  ///< `exam` is for mocks alone

    Seconds load() const { return planned + reserved + done; }

    std::vector<Retry> retries() const; ///< those among the items
};

/// From this time of day on what is open is better left for tomorrow: sleep comes first.
constexpr Seconds late_evening{22 * 3600};

/// The work that is planned for today, as far as it might fall on a later day, or else might not.
struct OpenTonight {
    std::vector<WorkItem> can_wait;
    std::vector<WorkItem> last_day;
};
OpenTonight open_tonight(const Timetable& timetable);

/// Day by day what is asked.
struct Plan {
    std::vector<PlannedDay> days; ///< every day of the span, ascending
};

/// The days of a timetable from `span.first` to `span.last`.
Plan plan(const Timetable& timetable, const Candidate& candidate, DaySpan span);

/// What a span of days asks of a candidate.
struct SpanWork {
    Seconds planned{0};
    std::vector<Retry> retries; ///< by day
};

SpanWork work_within(std::vector<Retry> retries, DaySpan span);

/// One of a class.
struct CandidateWork {
    std::string code;
    SpanWork within;
};

/// What today holds, and what comes after it.
struct TodaysWork {
    Day day;
    Seconds available{0};
    Seconds planned{0}; ///< by the retries and what is planned
    Seconds done{0};    ///< worked today already
    std::vector<Retry> retries;
    std::vector<PlannedWork> other_work; ///< for today and not done yet; papers, topics, facts
    std::vector<LessonPlace> lessons{};  ///< today
    struct Next {
        Day day;
        std::size_t count; ///< of retries, papers, topics; the facts of a day are one
        bool retries_alone = true;
    };
    std::optional<Next> next;
    std::size_t late_after = 0;     ///< late retries on later days
    std::size_t without_day = 0;    ///< open retries that have no day left before an exam that is ahead
    std::size_t not_placed = 0;     ///< pieces of work that have days left, none with room
    std::size_t last_day_today = 0; ///< of what today asks: its subject has its last exam tomorrow
    std::size_t facts_due = 0;      ///< to recall today, those that are planned for it among them

    std::size_t facts_planned() const;
    bool is_last_day() const; ///< of all that today asks
};

/// A paper in one of the candidate's scripts is no longer to be sat.
TodaysWork todays_work(const Candidate& candidate, const Timetable& timetable,
                       const std::vector<Script>& on_desk, Day today);

/// What to do first today: the clock goes before all else, then what waits to be marked, the late, topics
/// that come before their retries, a paper, the retry whose window closes first.
struct FirstToDo {
    enum class Why : std::uint8_t {
        clock_runs,
        to_mark,
        late,
        before_retries,
        needs_time,
        closes_first,
        planned
    };
    Why why;
    std::size_t which; ///< of the scripts (clock_runs, to_mark), of the retries (late, closes_first), else of
                       ///< the other work
};

/// Nothing where nothing is planned.
std::optional<FirstToDo> first_to_do(const TodaysWork& work, const std::vector<Script>& on_desk);

} // namespace inkturn
