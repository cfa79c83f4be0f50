#pragma once

#include "inkturn/grades/class_standing.hpp"
#include "view/page/html_table.hpp"
#include "view/text/table.hpp"

#include <string>
#include <vector>

namespace inkturn {

// Sets that are held against the same marks, of held_alike(), have a column each. Where they are too many for
// the width, further tables follow with the same rows.

/// Each grade's boundary, with how many have it by unaided marks and, in brackets, it or better.
std::vector<Table> grades_tables(const std::vector<ClassUnder>& alike);
/// The same by marks in time.
std::vector<Table> grades_in_time_tables(const std::vector<ClassUnder>& alike);

/// The same for a page, four sets a table, by marks in time or by unaided marks.
std::vector<HtmlTable> grades_page_tables(const std::vector<ClassUnder>& alike, std::size_t ClassCount::*by);

/// Who is near a boundary, see near_boundaries(), and by how many marks above or below which; none if nobody
/// is.
std::vector<Table> near_tables(const std::vector<ClassUnder>& alike);

// The texts below are lines of at most text_width() that each end in a line break.

/// How many are counted, and how many not.
std::string counted_line(const ClassUnder& under);

/// The papers whose marks are counted, with their standard error or why there is none.
std::string basis_lines(const ClassUnder& under);

/// How to read grades_tables().
std::string grades_key();

/// How many are near a boundary, or that nearly everyone is; empty without any standard error.
std::string near_line(const std::vector<ClassUnder>& alike);

/// The sets that no marks fit; empty if there is none.
std::string unfit_line(const std::vector<ClassUnder>& all);

/// For each subject with a single set that fits the marks, that boundaries move.
std::string one_set_lines(const std::vector<ClassUnder>& all);

/// What all this is, and is not.
std::string class_standing_caution();

} // namespace inkturn
