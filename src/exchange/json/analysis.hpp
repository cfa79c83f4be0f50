#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/analysis.hpp"

#include <string>

namespace inkturn {

/// What is undefined is null.
std::string json_of(const Paper& paper, const PaperAnalysis& analysis);

} // namespace inkturn
