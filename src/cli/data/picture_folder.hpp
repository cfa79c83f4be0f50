#pragma once

#include "cli/context.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `picture add PAPER --folder F`: asks on a terminal which question each new photograph shows, or takes
/// `answers`, FILE=QUESTION or FILE=QUESTION:scheme; without either it lists the new ones. All or nothing.
/// False if nothing was added.
bool add_photographs(const Context& context, const std::string& paper, const std::string& folder,
                     const std::vector<std::string>& answers);

} // namespace inkturn
