#pragma once

#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/plan/rating.hpp"
#include "inkturn/store/change.hpp"

#include <string>
#include <vector>

namespace inkturn {

class JsonValue;

/// Adds them to a candidate's JSON; no key if there are none.
void add_ratings(const std::vector<TopicRating>& ratings, Json& candidate);

/// Reads what add_ratings() wrote: by subject, then topic.
std::vector<TopicRating> read_ratings(const JsonValue& value, Day today);

/// Merges a document's into those on file: of a topic the later rating stays; two of one day that differ are
/// a conflict, unless the document's replace what is on file.
void take_ratings(Store::Change& change, const std::string& code, const std::vector<TopicRating>& in_file,
                  const MergeOptions& options, Merge& merge);

} // namespace inkturn
