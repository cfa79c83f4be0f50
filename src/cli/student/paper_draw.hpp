#pragma once

#include "cli/context.hpp"

#include <CLI/CLI.hpp>

namespace inkturn {

void add_paper_draw(CLI::App& group, Context& context);

} // namespace inkturn
