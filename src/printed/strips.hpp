#pragma once

#include "printed/line.hpp"

#include <cstddef>
#include <vector>

namespace inkturn::printed {

/// Lines of a layout, by position: from the one at `first` to before the one at `end`.
struct RowSpan {
    std::size_t first;
    std::size_t end;
    std::size_t last_marks; ///<  nothing before the line after it belongs to the next question
};

/// What each span takes up on the pages: from above its first line, including anything that rises above it,
/// to above the line after it, or to the end of the page or column where that is on another. Spans ascend and
/// don't overlap.
std::vector<std::vector<PageStrip>> strips_of(const Layout& layout, const Shifts& shifts,
                                              const std::vector<RowSpan>& spans);

} // namespace inkturn::printed
