#pragma once

#include "exchange/document/document.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/store/change.hpp"

namespace inkturn {

class JsonValue;

/// A candidate's own times, or those of a class; null where nothing is set. Of a whole week it says the free
/// days only if they are not the default's.
Json value_of(const StatedTimes& times);

StatedTimes read_times(const JsonValue& value);

/// Merges a document's times of classes, which are on file already, into theirs.
void take_class_times(Store::Change& change, const Document& document, const MergeOptions& options,
                      Merge& merge);

} // namespace inkturn
