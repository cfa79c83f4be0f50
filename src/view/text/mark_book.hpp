#pragma once

#include "inkturn/grades/mark_book.hpp"
#include "view/text/table.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// Whom to look at first: who fell most, or has least where there is one paper, and who has no marks. Lines
/// that each end in a line break.
std::string mark_book_findings(const MarkBook& book);

/// Unaided marks of the first rows, with grades under the papers' sets, and the change; where the papers are
/// too many for the width, further tables follow with the same rows.
std::vector<Table> unaided_tables(const MarkBook& book, std::size_t rows);
/// Marks in time, likewise, without the change.
std::vector<Table> in_time_tables(const MarkBook& book, std::size_t rows);

/// What a change is, and how large one is likely to be by chance; empty where nobody has one.
std::string change_key(const MarkBook& book);

/// By which paper candidates are compared, and which too few sat; empty where all papers count.
std::string compared_line(const MarkBook& book);

/// Which of the papers have no set; empty if all have one.
std::string unfit_papers_line(const MarkBook& book);

} // namespace inkturn
