#pragma once

#include "core/plan/board.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace inkturn::board {

/// All that days cost, in the order of PlanWeight.
struct Price {
    Fare fare;
    int broken = 0;
    Amount unreserved = 0;
    Amount reserved_outside = 0;
    Amount off_near = 0;
    Amount uneven = 0;
    Amount days = 0;
    Amount turns = 0; ///< least where of equal items the first comes first
};

bool operator<(const Price& a, const Price& b);
Price operator+(const Price& a, const Price& b);

/// What a search minimises.
enum class Until : std::uint8_t { fare, evenness };

/// The best days of all.
struct Best {
    Price price; ///< of the items asked for, beside the others' loads
    std::vector<MaybeDay> days;
};

/// How many steps it takes at most to find the best days for so many items.
double steps_of_exact(const Board& board, const std::vector<Index>& items);

/// The best days for a few items that have none, beside the others where they are: day by day, the least
/// price of having done each set of them. Exact.
Best place_exactly(const Board& board, const std::vector<Index>& items, Until until);

} // namespace inkturn::board
