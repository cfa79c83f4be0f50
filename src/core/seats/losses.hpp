#pragma once

#include "core/seats/seating_search.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/seats/seats.hpp"

#include <vector>

namespace inkturn::seats {

constexpr Amount max_sum = 1'000'000'000; ///< of all weights

/// Each date once, of ascending ones.
std::vector<Day> distinct(std::vector<Day> dates);

/// The weights by date, each of which is there once, with what a seat is worth for those who must have one.
/// Throws Error where rows differ in length or the weights add up to more than max_sum.
Losses losses_of(const std::vector<std::vector<SeatWeight>>& lost, const std::vector<SeatTerms>& terms,
                 const std::vector<Day>& dates);

/// Topics on which somebody who can come lost marks; all if nobody did and some must have a seat.
std::vector<Index> topics_to_choose(const Losses& losses);

} // namespace inkturn::seats
