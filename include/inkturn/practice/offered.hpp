#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/practice/printed_set.hpp"
#include "inkturn/retry/candidate.hpp"

#include <memory>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// The papers that a plan may have the candidate sit: neither kept unseen nor a set or drawn paper for
/// nobody or others, unless a day was asked for or it was sat. `classes` are the candidate's.
std::vector<std::shared_ptr<const Paper>>
offered_papers(const std::vector<std::shared_ptr<const Paper>>& papers, const Candidate& candidate,
               const std::set<std::string>& classes, const std::set<std::string>& kept_unseen,
               const std::vector<PrintedSet>& printed, Day today);

/// A paper that is asked for by its name is offered too, whether it is kept unseen or a set for others.
void offer(std::vector<std::shared_ptr<const Paper>>& offered, const std::shared_ptr<const Paper>& paper);

} // namespace inkturn
