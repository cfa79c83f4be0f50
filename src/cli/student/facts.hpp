#pragma once

#include "cli/context.hpp"
#include "inkturn/store/facts.hpp"

#include <CLI/CLI.hpp>

#include <string>
#include <vector>

namespace inkturn {

// The commands of the group `facts`, each defined in the file of its name.
void add_facts_add(CLI::App& group, Context& context);
void add_facts_list(CLI::App& group, Context& context);
void add_facts_log(CLI::App& group, Context& context);
void add_facts_remove(CLI::App& group, Context& context);
void add_facts_sheet(CLI::App& group, Context& context);

/// The sheet of this number. Throws Error where it is not on file, or is not that of the candidate named.
SheetOfFacts sheet_on_file(const Context& context, const Store& store, SheetId id);

} // namespace inkturn
