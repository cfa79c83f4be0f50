#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/class_figures.hpp"
#include "inkturn/store/store.hpp"

#include <set>
#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const Paper& paper);
/// With the figures kept of classes that were closed, and whether the paper is kept unseen.
std::string json_of(const Paper& paper, const std::vector<ClosedClassFigures>& closed, bool keep_unseen);
/// `kept_unseen`: ids of those that are.
std::string json_of(const std::vector<PaperOnFile>& papers, const std::set<std::string>& kept_unseen);

} // namespace inkturn
