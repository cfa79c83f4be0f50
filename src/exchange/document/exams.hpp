#pragma once

#include "exchange/document/document.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/store/change.hpp"

namespace inkturn {

class JsonValue;

Json value_of(const Exam& exam);
Exam read_exam(const JsonValue& value);

/// Merges a document's exams into those on file. Their classes are on file already.
void take_exams(Store::Change& change, const Document& document, const MergeOptions& options, Merge& merge);

} // namespace inkturn
