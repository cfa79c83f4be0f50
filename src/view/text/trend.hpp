#pragma once

#include "inkturn/statistics/trend.hpp"
#include "view/text/table.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A bar a sitting in printable ASCII, from left to right in their order, ten per cent a row: `i` up to the
/// share earned in time, `o` on to own marks, `c` on to those with corrections. Below each the sitting's
/// number, and `*` where its paper was sat again. The last sittings that fit into `width` columns, 40 to 80;
/// it says so where that isn't all. Empty without a sitting.
std::string trend_figure(const std::vector<TrendSitting>& sittings, std::size_t width = Table::full_width);

/// A row a sitting: marks, shares of them (own with overtime, corrected with own), reach.
Table trend_table(const std::vector<TrendSitting>& sittings);

/// A row a sitting against a clock: time worked before and after the change of ink, and what a mark took of
/// what it may take. Nothing where no clock ran.
std::optional<Table> trend_pace_table(const std::vector<TrendSitting>& sittings);

/// A row a turn: re-attempts recorded, how many of them got the question.
Table turns_table(const std::vector<TurnCount>& turns);

} // namespace inkturn
