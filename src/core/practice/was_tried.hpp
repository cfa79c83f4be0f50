#pragma once

#include "inkturn/retry/candidate.hpp"

#include <algorithm>

namespace inkturn {

/// A question that was set and not chosen may have been tried.
inline bool was_tried(const SittingRecord& record, const Question& question) {
    return std::any_of(question.parts.begin(), question.parts.end(),
                       [&](std::size_t part) { return record.sitting.parts[part].attempted(); });
}

} // namespace inkturn
