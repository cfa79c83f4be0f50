#pragma once

#include "inkturn/base/problem.hpp"

#include <string>
#include <vector>

namespace inkturn::test {

/// "line:column message"
inline std::string text_of(const Problem& problem) {
    return std::to_string(problem.line) + ":" + std::to_string(problem.column) + " " + problem.message;
}

inline std::vector<std::string> texts_of(const std::vector<Problem>& problems) {
    std::vector<std::string> texts;
    for (const Problem& problem : problems)
        texts.push_back(text_of(problem));
    return texts;
}

} // namespace inkturn::test
