#pragma once

#include "exchange/document/document.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/practice/draw.hpp"
#include "inkturn/store/change.hpp"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace inkturn {

class JsonValue;

/// By id.
using PapersById = std::map<std::string, std::shared_ptr<const Paper>>;

/// The paper of this id; refuses one that is not among them.
const std::shared_ptr<const Paper>& get_paper(const PapersById& papers, const JsonValue& id);

/// Puts with the papers those that their questions were drawn from.
void add_sources(const Store& store, PapersById& papers);

/// The copies on file among the document's papers, in the document's order.
std::vector<Copies> exported_copies(const Store& store,
                                    const std::vector<std::shared_ptr<const Paper>>& papers);

Json value_of(const std::vector<Copies>& copies);

/// Notes copies of a document whose papers are on file.
void note_copies(Store::Change& change, const std::vector<Copies>& copies);

/// Copies among these papers, in the document's order. Throws Error with the way to what is wrong.
std::vector<Copies> read_copies(const JsonValue& value, const PapersById& papers);

} // namespace inkturn
