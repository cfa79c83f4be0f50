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

/// `Answer any three questions from Section B`, `Answer either Question 5 or Question 6`.
struct StatedChoice {
    std::size_t line;
    int count;
    std::optional<int> section{}; ///< 2 for B
    std::vector<int> among{};     ///< numbers of questions; empty: all
    std::optional<int> besides{}; ///< a question that has to be answered
};

/// All that is said of a choice, wherever it stands.
std::vector<StatedChoice> read_choices(const Layout& layout);

/// Reads the lines before the one at `end`.
Cover read_cover(const Layout& layout, std::size_t end);

} // namespace inkturn::printed
