#pragma once

#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/paper/paper.hpp"

#include <vector>

namespace inkturn {

/// Reads a paper's parts: a header with `part,marks` and optionally `topic,codes,got_at,choice`, in any
/// order, then one row per part. Every problem goes into `problems` with its place; the parts are whole only
/// if there are none.
std::vector<Part> read_paper_rows(Rows& rows, ProblemList& problems);

} // namespace inkturn
