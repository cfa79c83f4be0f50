#pragma once

#include "cli/context.hpp"
#include "inkturn/paper/notes.hpp"
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

/// Marks as typed on the terminal, in the paper's order, and what was noted beside them.
struct AskedMarks {
    std::vector<PartMarks> parts;
    Notes notes;
};

/// Asks on the terminal for one line a question, and says first on which day the paper was sat. Nothing is
/// stored; nothing is returned if the candidate stopped before the end.
std::optional<AskedMarks> ask_for_marks(const Context& context, const Paper& paper, Day day);

} // namespace inkturn
