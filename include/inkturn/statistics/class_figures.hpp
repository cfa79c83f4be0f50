#pragma once

#include "inkturn/statistics/comparison.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// What is known of a part over a class, and of nobody in it.
struct PartFigures {
    std::string part;       ///< label
    Marks max;              ///< as it was then
    std::size_t candidates; ///< for whom it counted: PaperAnalysis::min_candidates_unnamed or more
    Marks in_time;          ///< of all of them together
    Marks unaided;          ///< of all of them together

    /// Mean unaided marks ÷ maximum, 0 to 1.
    double facility() const;

    friend bool operator==(const PartFigures& a, const PartFigures& b) {
        return a.part == b.part && a.max == b.max && a.candidates == b.candidates && a.in_time == b.in_time &&
               a.unaided == b.unaided;
    }
};

/// A paper's figures over a class that is closed: its candidates are on file no longer.
struct ClosedClassFigures {
    std::string of_class;
    Day day{};                      ///< on which it was closed
    std::string paper;              ///< id
    std::vector<PartFigures> parts; ///< in the paper's order
};

/// Of the parts for which enough candidates counted that the figures give no marks away, one sitting each.
std::vector<PartFigures> part_figures(const Side& side);

/// As compare() of two sides does, by the parts alone. `paper` is that of the figures, as it is now: it says
/// the topics. How much the marks of a closed class varied was not kept: they are taken to vary as much as
/// they can, so a difference that is beyond chance is so whatever they were.
Comparison compare(const Side& a, const ClosedClassFigures& b, const Paper& paper);

/// Throws Error unless candidates could have earned these marks.
void check_figures(const ClosedClassFigures& figures);

} // namespace inkturn
