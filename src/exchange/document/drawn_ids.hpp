#pragma once

#include "exchange/document/document.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A drawn paper of a document, and the id that it has in the store.
struct DrawnId {
    std::string in_file;
    std::string here;
};

/// Gives the drawn papers of a document the ids that they have in the store, or free ones. Two people's sets
/// are often numbered alike: the same set has the same questions from the same papers, and is not printed
/// for somebody else. `as`: the code that the document's only candidate has here. Returns those whose id is
/// another one here, by the document's.
std::vector<DrawnId> settle_drawn_ids(const Store& store, const std::optional<std::string>& as,
                                      Document& document);

} // namespace inkturn
