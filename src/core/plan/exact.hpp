#pragma once

#include "core/plan/board.hpp"

#include <optional>
#include <tuple>
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

inline bool operator<(const Price& a, const Price& b) {
    if (!(a.fare == b.fare))
        return a.fare < b.fare;
    const auto rest = [](const Price& price) {
        return std::tie(price.broken, price.unreserved, price.reserved_outside, price.off_near, price.uneven,
                        price.days, price.turns);
    };
    return rest(a) < rest(b);
}

inline Price operator+(const Price& a, const Price& b) {
    return {a.fare + b.fare,
            a.broken + b.broken,
            a.unreserved + b.unreserved,
            a.reserved_outside + b.reserved_outside,
            a.off_near + b.off_near,
            a.uneven + b.uneven,
            a.days + b.days,
            a.turns + b.turns};
}

/// The best days of all.
template <typename Cost>
struct Best {
    Cost cost; ///< of the items asked for, beside the others' loads
    std::vector<MaybeDay> days;
};

/// How many steps it takes at most to find the best days for so many items.
double steps_of_exact(const Board& board, const std::vector<Index>& items);

/// The best days for a few items that have none, beside the others where they are: day by day, the least
/// price of having done each set of them. Exact. Nothing where none cost less than `below`.
std::optional<Best<Price>> place_exactly(const Board& board, const std::vector<Index>& items,
                                         const std::optional<Price>& below = std::nullopt);

/// The same by the fare alone.
std::optional<Best<Fare>> place_at_least_fare(const Board& board, const std::vector<Index>& items,
                                              const std::optional<Fare>& below = std::nullopt);

} // namespace inkturn::board
