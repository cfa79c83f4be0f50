#pragma once

#include "core/plan/board.hpp"

#include <vector>

namespace inkturn::board {

/// Places items that have a fare anew together with a few others round them, exactly, while that lessens the
/// fare. A fixed amount of work.
void mend(Board& board, const std::vector<Index>& items);

} // namespace inkturn::board
