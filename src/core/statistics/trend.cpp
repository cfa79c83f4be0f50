#include "inkturn/statistics/trend.hpp"

#include "inkturn/clock/allowance.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/retry/turn_outcome.hpp"

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

/// The sitting itself is no re-attempt: its outcome comes first.
void count_reattempts(const std::vector<TurnOutcome>& all, std::map<int, TurnCount>& turns) {
    for (auto outcome = all.begin() + 1; outcome != all.end(); ++outcome) {
        TurnCount& count = turns.try_emplace(outcome->turn, TurnCount{outcome->turn, 0, 0}).first->second;
        ++count.done;
        count.got += outcome->got ? 1U : 0U;
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

Trend trend(const Candidate& candidate) {
    check_whole(candidate);
    Trend all;
    std::map<std::string, int> times_sat;
    std::map<int, TurnCount> turns;
    for (const SittingRecord& record : candidate.sittings) {
        all.sittings.push_back(trend_sitting(record, ++times_sat[record.paper->id()]));
        for (const Question& question : record.paper->questions())
            count_reattempts(outcomes(record, question), turns);
    }
    for (const auto& [turn, count] : turns)
        all.turns.push_back(count);
    return all;
}

} // namespace inkturn
