#include "inkturn/practice/offered.hpp"

#include "inkturn/retry/latest.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// Ids of the sets that were printed for others, or for nobody in particular.
std::set<std::string> sets_of_others(const SetReaders& readers, const std::vector<PrintedSet>& printed) {
    std::set<std::string> ids;
    for (const PrintedSet& set : printed)
        ids.insert(set.paper);
    for (const PrintedSet& set : sets_for(readers, printed))
        ids.erase(set.paper);
    return ids;
}

} // namespace

std::vector<std::shared_ptr<const Paper>>
offered_papers(const std::vector<std::shared_ptr<const Paper>>& papers, const Candidate& candidate,
               const std::set<std::string>& classes, const std::set<std::string>& kept_unseen,
               const std::vector<PrintedSet>& printed, Day today) {
    if (kept_unseen.empty() && printed.empty())
        return papers;
    const std::set<std::string> others = sets_of_others({{candidate.code}, classes}, printed);
    std::vector<std::shared_ptr<const Paper>> offered;
    for (const auto& paper : papers)
        if ((kept_unseen.count(paper->id()) == 0 && others.count(paper->id()) == 0) ||
            was_sat(candidate, paper->id()) ||
            steering_of(candidate, WorkPurpose::sit, paper->subject(), paper->id()).standing(today))
            offered.push_back(paper);
    return offered;
}

void offer(std::vector<std::shared_ptr<const Paper>>& offered, const std::shared_ptr<const Paper>& paper) {
    const auto is_it = [&](const auto& one) { return one->id() == paper->id(); };
    if (std::none_of(offered.begin(), offered.end(), is_it))
        offered.push_back(paper);
}

} // namespace inkturn
