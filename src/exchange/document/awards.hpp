#pragma once

#include "exchange/document/document.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/grades/award.hpp"
#include "inkturn/store/change.hpp"

namespace inkturn {

class JsonValue;

Json value_of(const Award& award);
Award read_award(const JsonValue& value);

Json value_of(const BoundarySet& set);
BoundarySet read_boundary_set(const JsonValue& value);

/// Merges a document's awards, then its boundary sets, into those on file.
void take_awards(Store::Change& change, const Document& document, const MergeOptions& options, Merge& merge);
void take_boundaries(Store::Change& change, const Document& document, const MergeOptions& options,
                     Merge& merge);

} // namespace inkturn
