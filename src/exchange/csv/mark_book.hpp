#pragma once

#include "inkturn/grades/mark_book.hpp"

#include <iosfwd>

namespace inkturn {

/// A row a candidate; for each paper its date, marks in time, unaided, what they are out of, and the grade
/// where it is asked for; then the change. The cells of an absent candidate's paper are empty.
void write_mark_book(std::ostream& out, const MarkBook& book, bool with_grades);

} // namespace inkturn
