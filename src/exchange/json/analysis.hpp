#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/comparison.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What is undefined is null, and so are the findings of a class that is too small. `eases` says how much
/// easier each part was than others of its topic, see Outlook::part_ease(), in the paper's order.
std::string json_of(const Paper& paper, const PaperAnalysis& analysis,
                    const std::vector<std::optional<double>>& eases, WhichSitting which);

} // namespace inkturn
