#pragma once

#include "cli/context.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What was pasted: entries with blanks or line breaks between them; or a row of a spreadsheet, a cell a part
/// in the paper's order; or two rows, the first with the labels. `paper`: null if it is not on file yet,
/// which takes entries alone. Throws Error.
std::vector<Entry> read_pasted_entries(std::istream& in, const Paper* paper);

/// Asks on the terminal for one line a question. Nothing is stored; nothing is returned if the candidate
/// stopped before the end.
std::optional<std::vector<PartMarks>> ask_for_marks(const Context& context, const Paper& paper);

} // namespace inkturn
