#pragma once

#include "inkturn/desk/script.hpp"
#include "inkturn/retry/candidate.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A sitting with those of the candidate's retries that are its own.
std::string json_of(const SittingRecord& record, const Candidate& candidate,
                    const std::vector<Retry>& retries);
/// The list of a candidate's sittings, and of what is not marked through.
std::string json_of(const Candidate& candidate, const std::vector<Retry>& retries,
                    const std::vector<Script>& scripts);

} // namespace inkturn
