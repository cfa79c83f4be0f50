#pragma once

#include "inkturn/practice/draw.hpp"
#include "inkturn/store/store.hpp"

#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// The ids of the papers on file that the candidate's plan keeps for a whole sitting.
std::set<std::string> papers_to_sit(const Store& store, const Candidate& candidate, Day today);

/// Says which questions of a drawn paper are in papers that a plan keeps for a whole sitting, and how such a
/// paper stays unseen; empty where there are none. `plan` is whose, such as `the plan`.
std::string to_sit_text(const std::vector<Drawable>& questions, const std::string& plan, bool is_stored);

} // namespace inkturn
