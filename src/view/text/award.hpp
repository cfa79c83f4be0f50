#pragma once

#include "inkturn/grades/award_standing.hpp"
#include "view/page/html_table.hpp"
#include "view/text/table.hpp"

#include <string>

namespace inkturn {

/// `A level maths, subject maths, out of 300`.
std::string award_title(const Award& award);

/// One row a component: marks, weight, uniform maximum, and the choice it belongs to.
Table components_table(const Award& award);

/// One row a component: which sitting counts, and its marks.
Table components_sat_table(const AwardStanding& standing);

/// One row a set and series: what the marks come to, and the grade; both as a range where components are
/// open.
Table award_sets_table(const AwardStanding& standing);

/// One row a component that was sat and set of it.
Table component_grades_table(const AwardStanding& standing);

// The texts below are lines of at most 80 columns that each end in a line break; empty where there is nothing
// to say.

/// What is open and what it may bring, what was sat and doesn't count, and why.
std::string open_lines(const AwardStanding& standing);

/// How to read award_sets_table(), and what of it nobody set.
std::string award_key(const AwardStanding& standing);

/// The caution beneath a standing in an award.
std::string award_caution();

/// One row a set and series, over all awards, in words.
HtmlTable award_page_table(const std::vector<AwardStanding>& standings);

/// `122 to 222: E to A`; of a whole award `183: B, 4 clear, 6 short of A`.
std::string reached_in_words(const BoundarySet& set, const MarksReached& reached);

/// `122 to 222: E to A`, `183: B +4 -6`.
std::string reached_in_cell(const BoundarySet& set, const MarksReached& reached);

/// `Saltmarsh, spring`; with the series that made the uniform marks where that is another.
/// Whatever of these is a guess, it says so.
std::string set_and_series(const BoundarySet& set, const std::string& series, bool is_guess);

} // namespace inkturn
