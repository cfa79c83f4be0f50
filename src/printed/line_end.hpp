#pragma once

#include "printed/line.hpp"
#include "printed/marks.hpp"

#include <optional>

namespace inkturn::printed {

/// The marks at the end of a line, in any form but `plain`; their `line` is left 0.
std::optional<PrintedMarks> read_marks(const Line& line);

/// `(3` at the end of a line and `marks)` alone on the next one.
std::optional<PrintedMarks> read_wrapped_marks(const Line& line, const Line& next);

/// `3` alone after a blank, which is marks in a column that is headed so.
std::optional<PrintedMarks> read_plain_marks(const Line& line);

/// `Total for Question 7 is 12 marks`, `[Total 12]`, `Question 7 total: 12`, `[Maximum mark: 12]`, `TOTAL FOR
/// PAPER: 75 MARKS` at the end of a line; its `line` is left 0.
std::optional<PrintedTotal> read_total(const Line& line);

} // namespace inkturn::printed
