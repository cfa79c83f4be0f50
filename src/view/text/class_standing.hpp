#pragma once

#include "inkturn/grades/class_standing.hpp"
#include "view/text/table.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A row a grade: its boundary, and how many have it, and it or a better one, by own marks and by those in
/// time; at the end those below the lowest.
Table grades_table(const ClassUnder& under);

/// A row a candidate within the standard error of a boundary; nothing where there is none.
std::optional<Table> near_table(const ClassUnder& under);

// The texts below are lines of at most 80 columns that each end in a line break; none where there is nothing
// to say.

/// How many are counted, and how many are not since nothing of theirs fits the set's total.
std::string counted_line(const ClassUnder& under);

/// What is held against the set, by how many, with the standard error or why there is none.
std::string basis_lines(const ClassUnder& under);

/// How many of those counted are in near_table(), and what it says.
std::string near_line(const ClassUnder& under);

/// Where a subject has one set alone that fits.
std::string one_set_lines(const std::vector<ClassUnder>& all);

/// The caution beneath a class's standing.
std::string class_standing_caution();

} // namespace inkturn
