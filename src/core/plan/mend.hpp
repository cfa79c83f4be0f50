#pragma once

#include "core/plan/board.hpp"

#include <vector>

namespace inkturn::board {

/// Places items that have a fare anew together with a few others round them, exactly, while that lessens the
/// fare. A fixed amount of work.
void mend(Board& board, const std::vector<Index>& items);

/// Places what may move of two days anew, exactly, while that makes the plan better; papers keep their days.
/// A fixed amount of work.
void polish(Board& board);

} // namespace inkturn::board
