#pragma once

#include "printed/line.hpp"

#include "inkturn/base/time.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn::printed {

/// A duration or a total with the line that states it.
template <typename T>
struct CoverStatement {
    T value;
    std::size_t line; ///< position in Layout::lines
};

/// What a cover says. The first of each counts; the others are there to be compared with it.
struct Cover {
    std::vector<CoverStatement<Seconds>> durations;
    std::vector<CoverStatement<int>> totals;
    std::optional<CoverStatement<int>> each; ///< marks of every question: `each question carries 2 marks`
};

/// Reads the lines before the one at `end`.
Cover read_cover(const Layout& layout, std::size_t end);

} // namespace inkturn::printed
