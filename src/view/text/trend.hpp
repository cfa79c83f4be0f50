#pragma once

#include "inkturn/statistics/trend.hpp"
#include "view/text/table.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// One bar per sitting in printable ASCII, from left to right in their order, ten percent per row: `i` up to
/// the share earned in time, `o` on to unaided marks, `c` on to all inks. Below each the sitting's
/// number, and `*` where its paper was sat again. The last sittings that fit into `width` columns,
/// 40 to 80; it says so if some are left out. Empty without sittings.
std::string trend_figure(const std::vector<TrendSitting>& sittings, std::size_t width = text_width());

/// One row per sitting: marks, shares of them (unaided: in time and overtime; corrected alone), reach.
Table trend_table(const std::vector<TrendSitting>& sittings);

/// One row per sitting against a clock: time worked before and after the change of ink, time off, and the
/// time per mark against the time allowed. Nothing if no clock ran.
std::optional<Table> trend_pace_table(const std::vector<TrendSitting>& sittings);

/// One row per turn: re-attempts recorded, and how many of them got the question.
Table turns_table(const std::vector<TurnCount>& turns);

/// How many secured questions were met again, and how many of them were got; empty if none was met.
std::string secured_again_line(const SecuredAgain& again);

} // namespace inkturn
