#pragma once

#include <nlohmann/json_fwd.hpp>

namespace inkturn {

/// Documents of docs/formats.md. Keys keep the order in which they are written there; lengths of time are
/// whole seconds, days ISO strings.
using Json = nlohmann::ordered_json;

} // namespace inkturn
