#pragma once

#include "exchange/document/values.hpp"

#include <fstream>
#include <iterator>
#include <string>

namespace inkturn::test {

inline std::string text_of_file(const char* name) {
    std::ifstream file(name, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// An export of two candidates, with all that one may hold but facts, boundaries, copies and plans.
inline const std::string& example() {
    static const std::string text = text_of_file(INKTURN_EXAMPLE_EXPORT);
    return text;
}

/// An export as the last program to write version 1 wrote it, with all that one may hold but boundaries and
/// copies. Never written anew.
inline const std::string& example_1() {
    static const std::string text = text_of_file(INKTURN_EXAMPLE_EXPORT_1);
    return text;
}

inline Json example_json() {
    return Json::parse(example());
}

} // namespace inkturn::test
