#pragma once

#include "exchange/document/copies.hpp"
#include "exchange/document/document.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/store/change.hpp"

#include <optional>
#include <set>
#include <string>

namespace inkturn {

class JsonValue;

/// Adds what the store holds of the document's papers as a bank of questions, and the lists of topics. Sets
/// are those for its candidates and classes, or, if `all`, all of them.
void add_bank(const Store& store, bool all, Document& document);

/// Adds the pictures of the document's papers, or of those with these ids alone.
void add_pictures(const Store& store, const std::optional<std::set<std::string>>& ids, Document& document);

/// Puts all that into the document's JSON; no key if there is none.
void add_bank(const Document& document, Json& json);

/// Takes the words of a paper's parts, and whether it is kept unseen, from its JSON.
void read_paper_of_bank(const JsonValue& value, const Paper& paper, Document& document);

/// Takes lists of topics, sets and pictures from a document's JSON. Comes after its candidates and classes.
void read_bank(const JsonValue& root, const PapersById& papers, Document& document);

/// Merges all that into what is on file. Of words what is on file stays, and of a question's pictures too; a
/// paper that either keeps unseen is kept so. Comes after papers and classes.
void take_bank(Store::Change& change, const Document& document, const MergeOptions& options, Merge& merge);

} // namespace inkturn
