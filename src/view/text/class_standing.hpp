#pragma once

#include "inkturn/grades/class_standing.hpp"
#include "view/text/table.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// One row per grade: its boundary, how many have it, and how many have it or better, by unaided marks and by
/// marks in time; at the end those below the lowest.
Table grades_table(const ClassUnder& under);

/// One row per candidate within the standard error of a boundary; nothing if there are none.
std::optional<Table> near_table(const ClassUnder& under);

// The texts below are lines of at most 80 columns that each end in a line break; empty where there is nothing
// to say.

/// How many are counted, and how many are not because none of their papers fit the set's total.
std::string counted_line(const ClassUnder& under);

/// The papers compared with the set, how many sat them, and the standard error or why there is none.
std::string basis_lines(const ClassUnder& under);

/// How many of those counted are in near_table(): its heading.
std::string near_line(const ClassUnder& under);

/// One line per subject for which only one set fits.
std::string one_set_lines(const std::vector<ClassUnder>& all);

/// The caution beneath a class's standing.
std::string class_standing_caution();

} // namespace inkturn
