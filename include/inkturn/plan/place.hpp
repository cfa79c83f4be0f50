#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/day_span.hpp"
#include "inkturn/base/time.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace inkturn {

/// What a day has for work.
struct DayTime {
    Seconds available{0}; ///< 0 on a day off
    Seconds done{0};      ///< work that was done on it, of all kinds
    bool exam = false;    ///< an exam is on it: work comes to it only where no other day is left
};

/// The days that work may fall on: today and those after it.
struct TimeAhead {
    Day today;
    std::vector<DayTime> days;
};

/// Late work goes by the closing of its window, then by attempt, then by number.
struct Lateness {
    Day closed;
    Day attempt;
    int number = 0;
};

/// The retries that a paper will bring, for which room is reserved.
struct ExpectedRetries {
    std::vector<Seconds> retries; ///< each above 0
    std::optional<Day> exam{};    ///< ends their window, see retry_window()
};

/// A piece of work that is done on one day: a retry, a paper, an hour for a topic, half of it, a check of a
/// topic, a sheet of facts.
struct WorkPiece {
    Seconds work; ///< above 0
    /// The days it may take: its window, then those it may take where that is impossible, on which its
    /// seconds count as outside. A day that several hold counts by the first.
    std::vector<DaySpan> spans;
    std::vector<Day> never_on{};          ///< days that it may not take all the same
    std::optional<DaySpan> near{};        ///< where it falls best: on these days, or as near them as may be
    std::optional<Lateness> late{};       ///< its window has closed: `spans` is one, from today on
    std::optional<Day> kept_day{};        ///< the day that it was given before
    std::optional<Day> wish{};            ///< the day that was asked for; needs no span that holds it
    std::vector<std::size_t> after{};     ///< pieces that come on a day before, where both fit
    std::optional<std::size_t> half_of{}; ///< the other half of its hour: on the same day where it can be
    bool paper = false;                   ///< there is one a day at most
    ExpectedRetries expected{};           ///< of a paper
};

/// Room that is reserved for a retry to come; no day: none has room for it, or no window is left.
struct Reserved {
    std::size_t paper; ///< position of the piece that will bring it
    Seconds work;
    std::optional<Day> day;
};

/// How a plan weighs. Less is better, compared in this order, with the days of late work, one by one, before
/// what is out of order; where all is equal the first of the pieces comes first.
struct PlanWeight {
    Seconds without_day{0};
    Seconds on_exam_days{0};
    Seconds outside{0};    ///< seconds outside their windows
    std::int64_t away = 0; ///< days by which what is outside misses its window; before it worse than after
    int out_of_order = 0;  ///< pieces on a day not after one they come after, halves on two days
    Seconds unreserved{0}; ///< of retries to come, without a day
    Seconds reserved_outside{0};
    std::int64_t off_near = 0; ///< days by which pieces miss where they fall best
    double evenness = 0;       ///< Σ L²/c over the days with time, in seconds
    std::int64_t day_sum = 0;  ///< of the distances from today

    double fullest_share = 0; ///< largest L/c; not compared
};

enum class PlanFit : std::uint8_t {
    fits,
    too_little_time, ///< proven: no plan fits
    not_found        ///< no plan was found that fits, and none was ruled out
};

/// A day for each piece of work.
struct WorkPlan {
    std::vector<std::optional<Day>> days; ///< in the order of the pieces; nothing: not placed
    std::vector<Reserved> reserved;       ///< of the papers with a day, in their order
    PlanWeight weight;

    PlanFit fit = PlanFit::fits;
    Seconds short_by{0};       ///< what no plan has a day for, retries to come among it: proven
    double evenness_bound = 0; ///< below it no plan of what was placed comes: see spread_bound()
    double fullest_share_bound = 0;
};

/// Gives each piece its day. No day is given more than it has, counting what was done on it and what is
/// reserved. Days asked for stand; then kept days, of a day what closes first before the rest; late work goes
/// one by one to the earliest day with room beside these, and takes at most half of the time of a day that
/// has other work; what else there is minimises PlanWeight. Few pieces are placed exactly, more by descent:
/// a fixed amount of work, the same plan each time.
WorkPlan place_work(const TimeAhead& time, const std::vector<WorkPiece>& pieces);

/// What no plan has a day for, as far as a bound proves it, without a plan.
Seconds proven_short(const TimeAhead& time, const std::vector<WorkPiece>& pieces);

/// What there is to plan.
struct WorkAhead {
    TimeAhead time;
    std::vector<WorkPiece> pieces;
};

/// The weight of a plan; `days` in the order of the pieces.
PlanWeight weigh_plan(const TimeAhead& time, const std::vector<WorkPiece>& pieces,
                      const std::vector<std::optional<Day>>& days, const std::vector<Reserved>& reserved);

/// The days on which a retry to come may fall if its paper is sat on a day: its window, then the days after
/// it before the exam. Empty: no day is left.
std::vector<DaySpan> spans_of_expected(const ExpectedRetries& expected, Day sat, Day last);

} // namespace inkturn
