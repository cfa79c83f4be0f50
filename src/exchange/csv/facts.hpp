#pragma once

#include "exchange/table/problem_list.hpp"
#include "exchange/table/rows.hpp"
#include "inkturn/facts/fact.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// The subject of a file's facts, and the facts already on file.
struct FactsContext {
    std::string subject; ///< of all of them; empty: none stated
    std::vector<Fact> on_file;
    bool replace = false; ///< a fact may contradict the one on file
};

/// Reads facts: a header with `prompt,answer` and optionally `topic`, in any order, then one row per fact.
/// Blanks at the ends of a cell are left out. Problems: what check_fact() refuses, a prompt that appears
/// twice, and a fact that contradicts the one on file. The facts, without numbers, are whole only if there
/// are none.
std::vector<Fact> read_facts_rows(Rows& rows, const FactsContext& met, ProblemList& problems);

} // namespace inkturn
