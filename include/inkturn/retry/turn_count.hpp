#pragma once

#include "inkturn/base/time.hpp"

#include <cstddef>
#include <vector>

namespace inkturn {

struct Candidate;

/// The re-attempts recorded at one turn.
struct TurnCount {
    int turn;
    std::size_t done;
    std::size_t got; ///< of them, see TurnOutcome

    /// What is supposed of every turn beside what was recorded: three of five are got. Common practice.
    static constexpr std::size_t supposed_done = 5;
    static constexpr std::size_t supposed_got = 3;
};

/// Ascending, those with a re-attempt.
std::vector<TurnCount> turn_counts(const Candidate& candidate);

/// Of work at a turn, what is not got there and so comes back at the next, to the nearest second, a half up:
/// by the re-attempts recorded at that turn and those supposed.
Seconds coming_back(Seconds work, const std::vector<TurnCount>& counts, int turn);

} // namespace inkturn
