#pragma once

#include "inkturn/retry/history.hpp"

#include <string>

namespace inkturn {

/// A turn with its question, pictures and every attempt at it; what was noted only if it is asked for.
std::string json_of(const RetryHistory& shown, const std::string& candidate, bool with_notes);

} // namespace inkturn
