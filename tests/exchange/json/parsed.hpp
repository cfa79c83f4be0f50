#pragma once

#include <nlohmann/json.hpp>

#include <string>

namespace inkturn::test {

using Json = nlohmann::ordered_json;

/// A document as the values that it tells, for a look at some of them.
inline Json parsed(const std::string& document) {
    return Json::parse(document);
}

} // namespace inkturn::test
