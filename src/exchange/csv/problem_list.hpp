#pragma once

#include "inkturn/base/problem.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// Problems in the order they were found: the first ones whole, the rest as a count.
struct ProblemList {
    static constexpr std::size_t most_kept = 50;

    std::vector<Problem> kept;
    std::size_t count = 0;

    void add(std::size_t line, std::size_t column, std::string message) {
        if (count++ < most_kept)
            kept.push_back({line, column, std::move(message)});
    }
    bool empty() const { return count == 0; }
};

} // namespace inkturn
