#pragma once

#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/store/change.hpp"

namespace inkturn {

class JsonValue;

/// Adds topics relearned, wishes for the plan and what was decided about single work to a candidate's JSON;
/// no key for what there is none of.
void add_plan(const Candidate& candidate, Json& object);

/// Reads what add_plan() wrote, after the sittings, and puts it in the order of Candidate.
void read_plan(const JsonValue& object, Day today, Candidate& candidate);

/// Merges a document's into a candidate's on file: the topics of both, the extra time and the wishes of one,
/// and decisions by take_steering(). Comes after the sittings.
void take_plan(Store::Change& change, const Candidate& here, const Candidate& in_file,
               const MergeOptions& options, Merge& merge);

} // namespace inkturn
