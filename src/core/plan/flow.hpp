#pragma once

#include "core/plan/board.hpp"

#include <vector>

namespace inkturn::board {

/// Retries to come, on whichever day their paper is sat: their spans from the first day that it may take to
/// the last.
struct ToCome {
    Amount work;
    std::vector<Span> spans;
};

/// Seconds that no plan has a day for, since even work that may be split over the days that it may take has
/// not: work less the greatest flow from items to days. Papers take no more of a day than the longest of
/// them. The items have no day; the others stay where they are.
Amount seconds_without_day(const Board& board, const std::vector<Index>& items,
                           const std::vector<ToCome>& to_come);

} // namespace inkturn::board
