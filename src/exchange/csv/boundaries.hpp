#pragma once

#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/grades/boundaries.hpp"

#include <vector>

namespace inkturn {

/// Reads boundary sets: a header with `set,total` and optionally `subject`, every other column a grade, from
/// the top down; then one row per set. An empty cell: that set has no such grade. Every problem goes into
/// `problems` with its place; the sets are whole, and checked, only if there are none.
std::vector<BoundarySet> read_boundaries_rows(Rows& rows, ProblemList& problems);

} // namespace inkturn
