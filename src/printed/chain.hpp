#pragma once

#include "inkturn/base/length.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn::printed {

/// A number or letter in a place where a label could be.
struct Rung {
    std::size_t line; ///< position in Layout::lines; ascending in a list of rungs
    std::optional<int> section;
    int number = 0; ///< from 1
    Points left;    ///< as in the left column
    Points right;
    Points line_left;      ///< where its line begins: another edge that labels may share
    int style = 0;         ///< of one list all of the same style are worth more
    bool is_alone = false; ///< nothing comes after it
    double worth = 0;      ///< what speaks for it beside its place, -1 to 1
    std::size_t token = 0; ///< what it was made from, as its maker counts
};

/// How many marks there are on the lines before each line, and after the last.
using MarksBefore = std::vector<std::size_t>;

struct Chain {
    std::vector<Rung> rungs;  ///< by line
    std::vector<Rung> others; ///< of the list, not in the chain
    double worth = 0;
    std::size_t end = 0; ///< the line after what it is looked for in

    /// The line of the next rung, or the end.
    std::size_t end_of(std::size_t rung) const {
        return rung + 1 < rungs.size() ? rungs[rung + 1].line : end;
    }
    bool has_marks(const MarksBefore& marks, std::size_t rung) const {
        return marks[end_of(rung)] > marks[rungs[rung].line];
    }
};

/// Numbers that a chain leaves out before a rung.
struct Gap {
    int first;
    int last;
    Rung before;
};
/// Those of a chain that counts from 1 on, in each section.
std::vector<Gap> gaps_in(const Chain& chain);

/// The rungs that most likely are the labels in their order: numbers that grow by one, at one edge, with
/// marks between each and the next, up to the line `end`. Where a section follows another, numbers begin
/// again.
Chain best_chain(const std::vector<Rung>& rungs, const MarksBefore& marks, std::size_t end);

} // namespace inkturn::printed
