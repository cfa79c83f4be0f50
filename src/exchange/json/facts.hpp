#pragma once

#include "inkturn/facts/recall.hpp"
#include "inkturn/facts/sheet.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// Facts as a candidate knows them: how each fared last and when it comes back; and the sheets not logged.
std::string json_of_facts(const std::string& candidate, const std::vector<Fact>& facts,
                          const std::vector<Sheet>& of_candidate, const std::vector<DueFact>& due);

/// The answers are null unless it is to be shown filled. One without rows has no number: nothing is asked.
std::string json_of(const CandidateSheet& of, bool filled);

} // namespace inkturn
