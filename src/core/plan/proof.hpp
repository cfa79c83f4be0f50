#pragma once

#include "core/plan/board.hpp"

#include <vector>

namespace inkturn::board {

/// What a plan was made of.
struct Made {
    const TimeAhead& time;
    const std::vector<WorkPiece>& pieces;
    const Board& standing; ///< with what stands alone
    const Board& placed;
    bool is_best; ///< no plan is better
};

/// Whether there is a day on which the item has room now.
bool has_day_for(const Board& board, Index i);

/// What no plan has a day for, retries to come among it, as far as that is proven.
Amount seconds_short(const Made& made);

/// Says whether the plan fits, by what it is short at least, and how even it might be at best.
void prove(const Made& made, WorkPlan& plan);

} // namespace inkturn::board
