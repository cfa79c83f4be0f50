#pragma once

#include "core/plan/board.hpp"

namespace inkturn::board {

/// Evens out what may move within its window, papers apart: fares, orders and the room of each day hold. By
/// descent over moves, exchanges and chains; a fixed amount of work.
void even_out(Board& board);

} // namespace inkturn::board
