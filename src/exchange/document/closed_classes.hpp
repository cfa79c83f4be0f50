#pragma once

#include "exchange/document/copies.hpp"
#include "exchange/document/document.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/json/forward.hpp"
#include "inkturn/store/change.hpp"

namespace inkturn {

class JsonValue;

Json value_of(const ClosedClassFigures& figures);
/// By day, class, paper. Of the document's papers; refuses what is in it twice.
std::vector<ClosedClassFigures> read_closed_classes(const JsonValue& value, const PapersById& papers,
                                                    Day today);

/// Adds a document's figures of closed classes to those on file; papers of these are on file already. Those
/// of the same class, day and paper are taken for the same.
void take_closed_classes(Store::Change& change, const Document& document, Merge& merge);

} // namespace inkturn
