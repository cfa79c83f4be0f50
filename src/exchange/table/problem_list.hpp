#pragma once

#include "inkturn/base/problem.hpp"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace inkturn {

/// Problems in the order they were found: the first ones whole, the rest as a count.
struct ProblemList {
    static constexpr std::size_t max_items = 50;

    std::vector<Problem> items;
    std::size_t count = 0;

    void add(Problem problem) {
        if (count++ < max_items)
            items.push_back(std::move(problem));
    }
    void add(std::size_t line, std::size_t column, std::string message) {
        add({line, column, std::move(message)});
    }
    void add(std::size_t line, const Error& error) {
        add({line, 0, error.what(), error.remedy(), error.about()});
    }
    bool empty() const { return count == 0; }
};

} // namespace inkturn
