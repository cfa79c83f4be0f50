#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/store/store.hpp"

#include <set>
#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const Paper& paper);
/// `kept_unseen`: ids of those that are.
std::string json_of(const std::vector<PaperOnFile>& papers, const std::set<std::string>& kept_unseen);

} // namespace inkturn
