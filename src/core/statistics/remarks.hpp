#pragma once

#include "inkturn/statistics/analysis.hpp"

#include <vector>

namespace inkturn {

/// All that hold, in the order of Remark, cut to the most important ones. Each figure is the double nearest
/// to its fraction, as each bound is, so a figure right on a bound is seen to be on it (in classes of any
/// real size).
std::vector<Remark> remarks(const PartAnalysis& part);

} // namespace inkturn
