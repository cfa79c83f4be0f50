#pragma once

#include "inkturn/statistics/analysis.hpp"

#include <vector>

namespace inkturn {

/// R. L. Ebel's rule of thumb for discrimination, from memory: below 0.2 poor, from 0.4 very good.
constexpr double poor_discrimination_below = 0.2;
constexpr double good_discrimination_from = 0.4;

/// All that hold, in the order of Remark, cut to the most important ones. Each figure is the double nearest
/// to its fraction, as each bound is, so a figure right on a bound is seen to be on it (in classes of any
/// real size).
std::vector<Remark> remarks(const PartAnalysis& part);

} // namespace inkturn
