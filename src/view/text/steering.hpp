#pragma once

#include "inkturn/plan/choices.hpp"
#include "inkturn/retry/candidate.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What each choice that was weighed costs, a sentence a line, and how many more there are; empty without
/// one.
std::string choices_text(const std::vector<Choice>& choices);

/// `12q7 (2 of 5 missed)`: retries, with commas between them.
std::string worth_text(const std::vector<Retry>& retries);

/// What was let go of a sitting's retries, a line each.
std::string let_go_text(const Candidate& candidate, const SittingRecord& record);

} // namespace inkturn
