#pragma once

#include "inkturn/retry/candidate.hpp"

#include <cstddef>
#include <string_view>

namespace inkturn {

/// Whether the candidate sat the paper of this id.
bool was_sat(const Candidate& candidate, std::string_view paper);

/// Whether the part counted in a later sitting of the same paper, by day, then id.
bool counted_later(const Candidate& candidate, const SittingRecord& record, std::size_t part);

/// Whether no later sitting replaces what this one missed of the question: one does in which the question
/// counted, once every part missed here counted in a later one.
bool is_latest(const Candidate& candidate, const SittingRecord& record, const Question& question);

/// Whether everything that its paper asks for was set in it, and in no later sitting of the same paper.
bool is_latest_whole(const Candidate& candidate, const SittingRecord& record);

} // namespace inkturn
