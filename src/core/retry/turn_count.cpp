#include "inkturn/retry/turn_count.hpp"

#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/turn_outcome.hpp"

#include <algorithm>
#include <cstdint>
#include <map>

namespace inkturn {
namespace {

/// The sitting itself is no re-attempt: its outcome comes first.
void count_reattempts(const std::vector<TurnOutcome>& all, std::map<int, TurnCount>& turns) {
    for (auto outcome = all.begin() + 1; outcome != all.end(); ++outcome) {
        TurnCount& count = turns.try_emplace(outcome->turn, TurnCount{outcome->turn, 0, 0}).first->second;
        ++count.done;
        count.got += outcome->got ? 1U : 0U;
    }
}

} // namespace

std::vector<TurnCount> turn_counts(const Candidate& candidate) {
    check_whole(candidate);
    std::map<int, TurnCount> turns;
    for (const SittingRecord& record : candidate.sittings)
        if (!record.reattempts.empty())
            for (const Question& question : record.paper->questions())
                count_reattempts(outcomes(record, question), turns);
    std::vector<TurnCount> counts;
    for (const auto& [turn, count] : turns)
        counts.push_back(count);
    return counts;
}

Seconds coming_back(Seconds work, const std::vector<TurnCount>& counts, int turn) {
    TurnCount all{turn, TurnCount::supposed_done, TurnCount::supposed_got};
    for (const TurnCount& count : counts)
        if (count.turn == turn) {
            all.done += count.done;
            all.got += count.got;
        }
    const auto done = static_cast<std::int64_t>(all.done);
    const auto missed = static_cast<std::int64_t>(all.done - all.got);
    return (2 * missed * work + Seconds(done)) / (2 * done);
}

} // namespace inkturn
