#pragma once

#include "cli/context.hpp"
#include "inkturn/retry/retry.hpp"

namespace inkturn {

/// The question of a retry: what to do and by when, its parts and pictures, and every attempt at it so far.
/// What was noted is held back unless it is asked for.
void show_retry(const Context& context, const RetryId& id, bool with_notes);

} // namespace inkturn
