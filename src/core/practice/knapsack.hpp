#pragma once

#include "inkturn/base/time.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace inkturn {

/// A question that may be taken to fill a time, and what speaks for it.
struct Offer {
    Seconds time; ///< above 0
    bool never_sat;
    std::int64_t weakness;   ///< of its topic, 0 to 1,000,000: more is weaker
    std::int64_t preference; ///< 0 to 1,000,000: more is taken where all else is equal
};

/// The positions, ascending, of offers that fill the time as well as whole questions can: the sum of their
/// times as large as possible and at most `time`; among those the choice with the most time never sat; then
/// the one with the largest sum of time × weakness; then of time × preference; then the one that takes the
/// first offer in which they differ. Exact. `time` is at most a day.
std::vector<std::size_t> fullest(const std::vector<Offer>& offers, Seconds time);

} // namespace inkturn
