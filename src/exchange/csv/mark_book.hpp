#pragma once

#include "inkturn/grades/mark_book.hpp"

#include <iosfwd>
#include <optional>

namespace inkturn {

/// A row a candidate; for each paper its date, marks in time, unaided, what they are out of, and the grade
/// where there is a set; then the change. The cells of an absent candidate's paper are empty.
void write_mark_book(std::ostream& out, const MarkBook& book, const std::optional<BoundarySet>& set);

} // namespace inkturn
