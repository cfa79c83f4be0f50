#pragma once

#include "inkturn/grades/standing.hpp"
#include "view/page/html_table.hpp"
#include "view/text/table.hpp"

#include <string>

namespace inkturn {

/// A row a set that fits: the grade in time, with overtime and with corrections, each with the marks clear
/// of its boundary and short of the one above, such as `B +4 -6`.
Table sets_table(const SubjectStanding& in);

/// A row a grade: in how many sets it was reached, and the cushion over the hardest of them.
Table outlook_table(const SubjectStanding& in);

// The texts below are lines of at most 80 columns that each end in a line break; none where there is nothing
// to say.

/// What is held against the sets: for each of their totals papers, days and marks.
std::string basis_lines(const SubjectStanding& in);

/// How to read sets_table().
std::string sets_key(const SubjectStanding& in);

/// For each total: the next one with its range, and the grades that the range means under each set.
std::string prediction_lines(const SubjectStanding& in);

/// For each total: what pace and corrections are worth in marks, and in grades over all sets.
std::string worth_lines(const SubjectStanding& in);

/// The sets that fit no total, the totals there are, and what to do.
std::string unmatched_lines(const SubjectStanding& in);

/// A row a set that fits, of all subjects: the grade by each total, with the marks clear and short in words.
HtmlTable standing_page_table(const CandidateStanding& standing);

/// The caution beneath a standing.
std::string standing_caution();

} // namespace inkturn
