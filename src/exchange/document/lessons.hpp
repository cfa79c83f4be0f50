#pragma once

#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/lesson/lesson.hpp"
#include "inkturn/store/change.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

class JsonValue;

/// The lessons on file, by id; of one candidate those asked for, without the others who asked.
std::vector<Lesson> exported_lessons(const Store& store, const std::optional<std::string>& candidate);

/// Adds them to a document; no key if there are none.
void add_lessons(const std::vector<Lesson>& lessons, Json& document);

/// Reads what add_lessons() wrote, and puts it in order.
std::vector<Lesson> read_lessons(const JsonValue& value, Day today);

/// Merges a document's lessons into those on file. A lesson here is taken for the same by its id; who asked
/// in the document alone is added to it.
void take_lessons(Store::Change& change, const Document& document, const MergeOptions& options, Merge& merge);

} // namespace inkturn
