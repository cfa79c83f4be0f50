#pragma once

#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/store/change.hpp"

#include <vector>

namespace inkturn {

class JsonValue;

/// What was decided about the open turns of a sitting, in the paper's order.
std::vector<SteeredRetry> exported_steering(const Candidate& candidate, const SittingRecord& record);

/// Adds the turns asked for once more to a sitting's JSON; no key if there are none.
void add_asked_again(const SittingRecord& record, Json& sitting);
/// Adds what was decided to a candidate's JSON; no key for what there is none of.
void add_steering(const Candidate& candidate, Json& object);

/// Reads what the two above wrote, and puts it in the order of Candidate. The second comes after the
/// sittings.
std::vector<AskedAgain> read_asked_again(const JsonValue& sitting, const Paper& paper, Day today);
void read_steering(const JsonValue& object, Day today, Candidate& candidate);

/// Adds the turns that a document asks for to a sitting's; returns those that were not among them.
std::vector<AskedAgain> add_turns_asked(const SittingRecord& in_file, SittingRecord& merged);
void store_turns(Store::Change& change, SittingId sitting, const std::vector<AskedAgain>& turns);

/// Merges what a document decided into what is on file: of retries that are open in both on the same turn,
/// and of papers and topics. What differs is a conflict, unless the document's is to replace it. Comes after
/// the sittings.
void take_steering(Store::Change& change, const Candidate& here, const Candidate& in_file,
                   const MergeOptions& options, Merge& merge);

} // namespace inkturn
