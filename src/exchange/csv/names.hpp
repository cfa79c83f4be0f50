#pragma once

#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"

#include <map>
#include <string>

namespace inkturn {

/// Reads the names that belong to codes: a header with `candidate` and `name`, or other usual
/// headings for them, then one row per candidate; other columns are left out.
/// Problems: a code without a name, one that appears twice, what can't be printed. The names are whole only
/// if there are none.
std::map<std::string, std::string> read_names_rows(Rows& rows, ProblemList& problems);

} // namespace inkturn
