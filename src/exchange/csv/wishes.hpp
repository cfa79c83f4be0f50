#pragma once

#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/seats/lost_marks.hpp"

#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// What a wish may name.
struct WishesFor {
    std::set<std::string> candidates;
    std::set<std::string> topics;
};

/// Reads wishes: a header with `candidate` and `topic`, then one row per wish. Problems: a candidate or a
/// topic that may not be named, a row that appears twice. The wishes are whole only if there are none.
std::vector<Wish> read_wishes_rows(Rows& rows, const WishesFor& named, ProblemList& problems);

} // namespace inkturn
