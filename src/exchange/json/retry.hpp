#pragma once

#include "inkturn/retry/candidate.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace inkturn {

/// What came of a re-attempt: got, secured, what was lost, and the next turn if one is open.
std::string json_of_outcome(const SittingRecord& record, const RetryId& id, const std::optional<Retry>& next);

/// A re-attempt that was undone, and the turn that is open.
std::string json_of_undone(const RetryId& id, const std::optional<Retry>& open);

/// What a candidate decided about a retry, or took back.
enum class RetryDone : std::uint8_t {
    wanted,
    let_go,
    asked_again,
    wanted_undone,
    let_go_undone,
    asked_again_undone
};

/// What was decided, whether it was taken back, and the retry with its day if it is open.
std::string json_of_done(const RetryId& id, RetryDone done, const std::optional<Retry>& next);

} // namespace inkturn
