#pragma once

#include "inkturn/plan/plan.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `paper draw --topic=integration ...`: the command that draws questions for a check, with an id that none
/// of the papers on file has; `papers`: their ids, ascending.
std::string command_for_check(const Candidate& candidate, const PlannedWork& planned,
                              const std::vector<std::string>& papers);

/// It, for each check, with `same_candidate` (` --candidate K07`) at its end, in lines of at most 80 columns.
std::string checks_text(const Plan& plan, const std::vector<std::string>& papers,
                        const std::string& same_candidate = {});
std::string checks_text(const std::vector<PlannedWork>& planned, const Candidate& candidate,
                        const std::vector<std::string>& papers, const std::string& same_candidate = {});

/// What to do about the topics for which nothing can be drawn.
std::string unchecked_text(const std::vector<UncheckedTopic>& unchecked);

} // namespace inkturn
