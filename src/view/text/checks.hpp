#pragma once

#include "inkturn/plan/plan.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// The command for a check: `sit check-integration-1` where such a paper is drawn and unseen, else one such
/// as `paper draw --topic=integration`, with an id that none of the papers on file has.
std::string command_for_check(const Candidate& candidate, const PlannedWork& planned,
                              const PapersForChecks& papers);

/// It, for each check, with `same_candidate` (` --candidate K07`) at its end, in lines of at most 80 columns.
std::string checks_text(const Plan& plan, const PapersForChecks& papers,
                        const std::string& same_candidate = {});
std::string checks_text(const std::vector<PlannedWork>& planned, const Candidate& candidate,
                        const PapersForChecks& papers, const std::string& same_candidate = {});

/// What to do about the topics for which nothing can be drawn.
std::string unchecked_text(const std::vector<UncheckedTopic>& unchecked);

} // namespace inkturn
