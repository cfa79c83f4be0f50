#pragma once

#include "inkturn/retry/candidate.hpp"

#include <optional>
#include <string>

namespace inkturn {

/// What came of a re-attempt: got, secured, and the next turn where it was not got.
std::string json_of_outcome(const RetryId& id, bool got, const std::optional<Retry>& next);

} // namespace inkturn
