#pragma once

#include "exchange/document/document.hpp"

#include <string>

namespace inkturn {

/// A candidate on file, other than `code`, who has every sitting of the document's only candidate, mark for
/// mark, while `code` lacks one; empty where there is none. Then the document may be that candidate's.
std::string find_twin(const Store& store, const Document& document, const std::string& code);

} // namespace inkturn
