#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/class_figures.hpp"
#include "inkturn/store/store.hpp"

#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const Paper& paper);
/// With the figures kept of classes that were closed.
std::string json_of(const Paper& paper, const std::vector<ClosedClassFigures>& closed);
std::string json_of(const std::vector<PaperOnFile>& papers);

} // namespace inkturn
