#pragma once

#include "cli/context.hpp"
#include "inkturn/candidate.hpp"
#include "inkturn/sitting.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// The entries as typed. Throws Error.
std::vector<Entry> parse_entries(const std::vector<std::string>& texts);

/// `full` or `none`; nothing where nothing was typed. Throws Error.
std::optional<Rest> parse_rest(const std::string& text);

/// What people read of a sitting: marks by ink, part by part where asked, retries and their days.
void print_sitting(const Context& context, const SittingRecord& record, const Candidate& candidate,
                   const std::vector<Retry>& retries, bool with_parts = false);

} // namespace inkturn
