#pragma once

#include "cli/context.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// The entries as typed. Throws Error.
std::vector<Entry> parse_entries(const std::vector<std::string>& texts);

/// `full` or `none`; nothing where nothing was typed. Throws Error.
std::optional<Rest> parse_rest(const std::string& text);

/// A sitting on file: as JSON, or marks by ink, retries and their days; part by part, with the figure of its
/// clock, where asked.
void print_sitting(const Context& context, const Store& store, SittingId id, bool with_parts = false);

/// The retries that came of the sitting and their days, and what comes next.
void print_retries_of(const Context& context, const std::vector<Retry>& retries, SittingId id);

} // namespace inkturn
