#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "inkturn/facts/recall.hpp"
#include "inkturn/store/facts.hpp"

namespace inkturn {

// The commands of the group `facts`, each defined in the file of that name.
void add_facts_add(Command& group);
void add_facts_list(Command& group);
void add_facts_log(Command& group);
void add_facts_remove(Command& group);
void add_facts_sheet(Command& group);

/// The sheet of this number. Throws Error if it is not on file, or belongs to another candidate.
CandidateSheet sheet_on_file(const Context& context, const Store& store, SheetId id);

/// When the next sheet is planned, and from when missed facts come back: lines, empty where neither is known.
std::string next_sheet_text(const std::vector<DueFact>& due, const FactDays& fact_days, Day today);

} // namespace inkturn
