#pragma once

#include "inkturn/grades/standing.hpp"
#include "view/page/html_table.hpp"
#include "view/text/table.hpp"

#include <string>

namespace inkturn {

/// `B`, or `none` below the lowest grade.
std::string grade_text(const BoundarySet& set, const GradeResult& reached);

/// `B, 4 clear, 6 short of A`.
std::string grade_in_words(const BoundarySet& set, const GradeResult& reached);

/// What nobody stated of the sets' boundaries: filled in, or a guess. Lines of at most 80 columns.
std::string set_remarks(const std::vector<BoundarySet>& sets);

/// One row per set that fits: the grade in time, unaided and of all inks, each with the marks
/// clear of its boundary and short of the one above, such as `B +4 -6`.
Table sets_table(const SubjectStanding& in);

/// One row per grade: in how many sets it was reached, and the cushion over the hardest of them.
Table outlook_table(const SubjectStanding& in);
std::string outlook_title(const SubjectStanding& in);

// The texts below are lines of at most 80 columns that each end in a line break; empty where there is nothing
// to say.

/// What the sets are compared with: for each of their totals the papers, days and marks.
std::string basis_lines(const SubjectStanding& in);

/// How to read sets_table().
std::string sets_key(const SubjectStanding& in);

/// For each total: the prediction with its range, and the grades that the range means under each set.
/// `subjects`: of the papers sat whole.
std::string prediction_lines(const SubjectStanding& in, const std::set<std::string>& subjects);

/// For each total: what pace and corrections are worth, in marks and in grades over all sets.
std::string worth_lines(const SubjectStanding& in);

/// The sets that fit no total, the totals there are, and what to do about it.
std::string unmatched_lines(const SubjectStanding& in);

/// One row per set that fits, over all subjects: the grade by each total, with the marks clear and short in
/// words.
HtmlTable standing_page_table(const CandidateStanding& standing);

/// How many sittings of parts of a paper are left out; empty where none is.
std::string in_part_text(const CandidateStanding& standing);

/// The caution beneath a standing.
std::string standing_caution();

/// That so many sittings of drawn papers don't count; empty without any.
std::string drawn_text(std::size_t sittings);

} // namespace inkturn
