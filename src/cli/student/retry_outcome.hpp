#pragma once

#include "cli/context.hpp"

namespace inkturn {

/// What came of a re-attempt on file: as JSON, or whether the question was got, else the next turn and its
/// day.
void print_retried(const Context& context, const Store& store, const RetryId& id);

/// The open turn of the question that the id names, whichever it is.
std::optional<Retry> open_retry(const std::vector<Retry>& retries, const RetryId& id);

} // namespace inkturn
