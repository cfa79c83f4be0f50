#pragma once

#include "core/plan/board.hpp"

#include <functional>
#include <vector>

namespace inkturn::board {

/// With how much of a day late work may do.
enum class Beside : std::uint8_t {
    others,  ///< others stay on it
    no_other ///< nothing but late work stays on it or comes to it
};

/// Puts an item on a day if nothing else suffers; false, with all as before, if it does.
using PutLate = std::function<bool(Index item, Index t, Beside beside)>;

/// Gives late items their days one by one, in their order: each the earliest with room beside what stands.
/// They take at most half of the time of a day that has other work, unless no other day is left. One that
/// comes after others waits for them, seven days at most. From then on they stand.
void place_late(Board& board, const std::vector<Index>& in_order, const PutLate& put);

} // namespace inkturn::board
