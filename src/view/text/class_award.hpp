#pragma once

#include "inkturn/grades/class_award.hpp"
#include "view/text/table.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// By which of a candidate's marks a table goes.
enum class MarksShown { in_time, unaided };

/// A row a candidate: the marks that count in each component. Where they are too many for the width, further
/// tables follow with the same rows.
std::vector<Table> component_marks_tables(const ClassAward& of, MarksShown shown);

/// A row a candidate: the sum and its grade under each of the award's sets, then the grade in each component
/// under each of its own.
std::vector<Table> class_award_tables(const ClassAward& of, MarksShown shown);

/// How to read these; lines of at most 80 columns that each end in a line break.
std::string class_award_key(const ClassAward& of);

} // namespace inkturn
