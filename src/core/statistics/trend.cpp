#include "inkturn/statistics/trend.hpp"

#include "inkturn/clock/allowance.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/retry/turn_outcome.hpp"

#include <algorithm>
#include <cstddef>
#include <map>
#include <string>

namespace inkturn {
namespace {

TrendSitting::WorkingTime working_time_by(const ClockRecord& record) {
    TrendSitting::WorkingTime worked{Seconds(0), Seconds(0), record.time_off()};
    for (const PartTime& time : record.parts) {
        worked.in_time += time.in_time;
        worked.overtime += time.overtime;
    }
    return worked;
}

TrendSitting trend_sitting(const SittingRecord& record, int time_sat) {
    const Paper& paper = *record.paper;
    TrendSitting sitting{record.id,
                         record.paper,
                         record.sitting.day,
                         time_sat,
                         totals(paper, record.sitting.parts),
                         reach_of(paper, record.sitting.parts),
                         allowance(paper, record.sitting),
                         std::nullopt};
    if (const auto clock = clock_of(paper, record.sitting)) {
        const ClockRecord seen = record_of(*clock);
        sitting.reach = seen.reach;
        sitting.worked = working_time_by(seen);
    }
    return sitting;
}

void count(bool is_got, SecuredAgain& again) {
    ++again.met;
    again.got += is_got ? 1U : 0U;
}

/// Turns after one that had secured the question.
void count_turns_asked_again(const SittingRecord& record, SecuredAgain& again) {
    for (const Question& question : record.paper->questions()) {
        const std::vector<TurnOutcome> all = outcomes(record, question);
        for (std::size_t i = 1; i < all.size(); ++i)
            if (all[i - 1].got)
                count(all[i].got, again);
    }
}

/// Whether a retry had secured the question before a day, in its last attempt until then.
bool was_secured(const SittingRecord& record, const Question& question, Day before) {
    bool secured = false;
    for (const QuestionAttempt& attempt : attempts_at(record, question))
        if (attempt.day < before)
            secured = attempt.outcome.got;
    return secured;
}

/// Whether what counted of the question in one sitting counted in another too.
bool counts_as_before(const SittingRecord& before, const SittingRecord& now, const Question& question) {
    return std::all_of(question.parts.begin(), question.parts.end(), [&](std::size_t part) {
        return now.sitting.parts[part].counts() || !before.sitting.parts[part].counts();
    });
}

/// The sitting before one of the same paper in which the question counted.
const SittingRecord* sat_before(const Candidate& candidate, const SittingRecord& now,
                                const Question& question) {
    const SittingRecord* last = nullptr;
    for (const SittingRecord& record : candidate.sittings) {
        if (&record == &now)
            break;
        if (record.paper->id() == now.paper->id() && counts(record, question))
            last = &record;
    }
    return last;
}

void count_sat_again(const Candidate& candidate, const SittingRecord& now, SecuredAgain& again) {
    for (const Question& question : now.paper->questions()) {
        const SittingRecord* before = sat_before(candidate, now, question);
        if (before && counts_as_before(*before, now, question) &&
            was_secured(*before, question, now.sitting.day))
            count(missed_in(*now.paper, question, now.sitting).marks == Marks(0), again);
    }
}

} // namespace

std::optional<double> TrendSitting::seconds_per_mark() const {
    if (!worked || reach == Marks(0))
        return std::nullopt;
    return static_cast<double>(worked->in_time.count()) / reach.count();
}

double TrendSitting::allowed_per_mark() const {
    return static_cast<double>(allowance.count()) / totals.max.count();
}

std::optional<Interval> SecuredAgain::interval() const {
    if (met == 0)
        return std::nullopt;
    return jeffreys_interval(static_cast<double>(got), static_cast<double>(met));
}

Trend trend(const Candidate& candidate) {
    check_whole(candidate);
    Trend all;
    std::map<std::string, int> times_sat;
    for (const SittingRecord& record : candidate.sittings) {
        all.sittings.push_back(trend_sitting(record, ++times_sat[record.paper->id()]));
        count_turns_asked_again(record, all.secured_again);
        count_sat_again(candidate, record, all.secured_again);
    }
    all.turns = turn_counts(candidate);
    return all;
}

} // namespace inkturn
