#pragma once

#include "cli/context.hpp"
#include "inkturn/paper/amendment.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/store/change.hpp"

#include <map>
#include <string>
#include <vector>

namespace inkturn {

/// Gives parts other topics: amendments by the paper's id. Copies of their questions follow. Begins with the
/// days passed of the candidate that it is done as, and ends with their plan; returns what moved.
std::vector<PlanChange> amend_topics(const Context& context, Store::Change& change,
                                     const std::map<std::string, PaperAmendment>& amendments);

/// The plan of the candidate that it is done as; others' plans follow at their next change.
std::vector<PlanChange> moved_days(const Context& context, Store::Change& change);

} // namespace inkturn
