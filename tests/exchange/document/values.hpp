#pragma once

#include "exchange/document/stores.hpp"
#include "exchange/json/parsed.hpp"
#include "refusal.hpp"

#include <string>

namespace inkturn::test {

/// What is written of the document.
inline Json value_of(const Document& document) {
    return parsed(to_text(document));
}

inline Document read(const Json& json) {
    return read_text(json.dump());
}

/// Why the document is refused; empty where it is taken.
inline std::string refusal(const Json& json) {
    return refusal_of([&] { read(json); });
}

} // namespace inkturn::test
