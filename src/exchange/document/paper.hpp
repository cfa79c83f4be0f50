#pragma once

#include "exchange/document/strict_json.hpp"
#include "inkturn/paper/paper.hpp"

#include <memory>

namespace inkturn {

/// A paper as a document has it: with its duration, and the shares got at where they are stated.
Json exported_json(const Paper& paper);

/// Throws Error.
std::shared_ptr<const Paper> read_paper(const JsonValue& value);

} // namespace inkturn
