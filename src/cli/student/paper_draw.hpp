#pragma once

#include "cli/command_line.hpp"

namespace inkturn {

void add_paper_draw(Command& group);

} // namespace inkturn
