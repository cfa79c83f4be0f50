#pragma once

#include "core/plan/board.hpp"

#include <vector>

namespace inkturn::board {

/// Puts pieces on the days that were asked for, then on the days that they were given before, while these
/// have room; of a day, what closes first before the rest. An exam's day is kept by what was asked for alone.
void keep_standing(Board& board, Day today, const std::vector<WorkPiece>& pieces);

} // namespace inkturn::board
