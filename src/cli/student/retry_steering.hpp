#pragma once

#include "cli/context.hpp"
#include "inkturn/retry/retry.hpp"

#include <string>

namespace inkturn {

/// What a candidate decides about one retry: each stores it with the plan that follows, and prints both.
void ask_for_day(const Context& context, const RetryId& id, const std::string& day);
void drop_retry(const Context& context, const RetryId& id, const std::string& reason);
void ask_again(const Context& context, const RetryId& id);

/// Takes back what was last done to it.
void undo_retry(const Context& context, const RetryId& id);

} // namespace inkturn
