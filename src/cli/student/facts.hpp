#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "inkturn/store/facts.hpp"

namespace inkturn {

// The commands of the group `facts`, each defined in the file of its name.
void add_facts_add(Command& group);
void add_facts_list(Command& group);
void add_facts_log(Command& group);
void add_facts_remove(Command& group);
void add_facts_sheet(Command& group);

/// The sheet of this number. Throws Error where it is not on file, or is not that of the candidate named.
CandidateSheet sheet_on_file(const Context& context, const Store& store, SheetId id);

} // namespace inkturn
