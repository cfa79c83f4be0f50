#pragma once

#include "exchange/document/values.hpp"

#include <fstream>
#include <iterator>
#include <string>

namespace inkturn::test {

/// An export of two candidates, with all that one may hold but facts, boundaries, copies and plans.
inline const std::string& example() {
    static const std::string text = [] {
        std::ifstream file(INKTURN_EXAMPLE_EXPORT, std::ios::binary);
        return std::string{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    }();
    return text;
}

inline Json example_json() {
    return Json::parse(example());
}

} // namespace inkturn::test
