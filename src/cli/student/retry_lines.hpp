#pragma once

#include "cli/context.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// Records the lines on standard input that a page for the phone gave to copy back, all or nothing.
void record_lines(const Context& context, const std::vector<std::string>& accepted);

} // namespace inkturn
