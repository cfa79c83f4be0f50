#pragma once

#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/latest.hpp"

#include <algorithm>

namespace inkturn {

/// A question that was set and not chosen may have been tried.
inline bool was_tried(const SittingRecord& record, const Question& question) {
    return std::any_of(question.parts.begin(), question.parts.end(),
                       [&](std::size_t part) { return record.sitting.parts[part].attempted(); });
}

/// Missed in the sitting, and neither got nor missed in a later one since.
inline bool waits_as_retry(const Candidate& candidate, const SittingRecord& record,
                           const Question& question) {
    return (counts(record, question) || was_tried(record, question)) &&
           is_latest(candidate, record, question) &&
           open_turn(record, question, candidate.wishes.retries).has_value();
}

} // namespace inkturn
