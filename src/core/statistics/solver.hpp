#pragma once

#include "mixed_model.hpp"

#include <vector>

namespace inkturn {

/// Works out what a mixed model says with these variances.
SolvedModel solve(const AlikeEvidence& evidence, const std::vector<PatternDesign>& designs,
                  const Design& paper_design, PaperPrior prior, const Scatters& variances, bool with_slopes);

} // namespace inkturn
