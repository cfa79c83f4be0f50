#pragma once

#include <cstddef>
#include <vector>

namespace inkturn::printed {

/// A number or letter that stands where a label may stand.
struct Rung {
    std::size_t line; ///< position in Layout::lines; ascending in a list of rungs
    int section = 0;  ///< 0: none
    int number = 0;   ///< from 1
    double left = 0;  ///< points, as in the left column
    double right = 0;
    double line_left = 0; ///< where its line begins: another edge that labels may share
    int style = 0;        ///< of one list all of the same style are worth more
    std::size_t page = 0;
    bool has_sub_part = false; ///< on its own line
    bool is_alone = false;     ///< nothing stands after it
    double worth = 0;          ///< what speaks for it beside its place, -1 to 1
};

/// How many marks stand on the lines before each line, and after the last.
using MarksBefore = std::vector<std::size_t>;

/// A line that states the total of a question by its number.
struct NamedTotal {
    std::size_t line;
    int question;
};

struct Chain {
    std::vector<std::size_t> rungs; ///< positions in the list, ascending
    double worth = 0;
};

/// The rungs that most likely are the labels in their order: numbers that grow by one, at one edge, with
/// marks between each and the next, up to the line `end`. Where a section follows another, numbers begin
/// again. Totals ascend by line.
Chain best_chain(const std::vector<Rung>& rungs, const MarksBefore& marks, std::size_t end,
                 const std::vector<NamedTotal>& totals);

} // namespace inkturn::printed
