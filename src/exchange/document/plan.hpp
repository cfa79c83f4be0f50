#pragma once

#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/store/change.hpp"

namespace inkturn {

class JsonValue;

/// Adds what the candidate says of the plan to their JSON: topics relearned and wishes, no key for what they
/// don't say.
void add_plan(const Candidate& candidate, Json& object);

/// Reads what add_plan() wrote, and puts it in the order of Candidate.
void read_plan(const JsonValue& object, Day today, Candidate& candidate);

/// What a candidate on file says of the plan meets what a document has them say. Topics relearned are those
/// of both.
void take_plan(Store::Change& change, const Candidate& here, const Candidate& in_file,
               const MergeOptions& options, Merge& merge);

} // namespace inkturn
