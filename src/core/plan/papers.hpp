#pragma once

#include "core/plan/board.hpp"

#include <cstdint>
#include <vector>

namespace inkturn::board {

/// Whether a paper rather leaves its window than falls on a day where other work is expected to leave too
/// little room for it.
enum class Heed : std::uint8_t { window, others };

/// Gives papers that have no day the best ones, a day each: a least-cost assignment, by fare, then by the
/// evenness beside what is expected of other work on each day. Those that have no room stay without.
void assign_papers(Board& board, const std::vector<Index>& papers, const std::vector<double>& expected,
                   Heed heed);

/// Moves papers to other days of the same fare where the plan gets more even; their retries to come stay
/// where they are, in their windows. Whether any moved.
bool even_out_papers(Board& board, const std::vector<WorkPiece>& pieces, Day today);

/// The seconds of the papers that can't have a day in any plan, with all other items off the board that may
/// move.
Amount papers_without_day(const Board& board, const std::vector<Index>& papers);

} // namespace inkturn::board
