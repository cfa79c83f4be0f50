#pragma once

#include "inkturn/statistics/comparison.hpp"
#include "view/text/table.hpp"

#include <string>

namespace inkturn {

/// What the two sides are called in tables, such as `tuesday` and `friday`.
struct SideNames {
    std::string a;
    std::string b;
};

/// Candidates, mean and standard deviation of the totals of each side, and the difference.
Table totals_table(const Comparison& comparison, const SideNames& names);

/// The parts that differ most, with the facility of each side and the difference in percentage points.
Table differing_parts_table(const Comparison& comparison, const SideNames& names);

// The texts below are lines of at most text_width() that each end in a line break; empty where there is
// nothing to say.

/// What to conclude first: whether the totals differ, and which parts do beyond chance.
std::string comparison_findings(const Comparison& comparison, const SideNames& names);

/// How the intervals and "beyond chance" are meant, and what was left out.
std::string comparison_notes(const Comparison& comparison);

} // namespace inkturn
