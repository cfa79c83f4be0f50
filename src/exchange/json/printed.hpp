#pragma once

#include "inkturn/printed/paper.hpp"

#include <string>

namespace inkturn {

/// What was found in a printed paper, and in its scheme where there is one; pages count from 1.
std::string json_of(const PrintedPaper& paper, const PrintedScheme& scheme);

} // namespace inkturn
