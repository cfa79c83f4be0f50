#pragma once

#include "printed/line.hpp"

#include <cstddef>
#include <vector>

namespace inkturn::printed {

/// Lines of a layout, by position: from the one at `first` to before the one at `end`.
struct Span {
    std::size_t first;
    std::size_t end;
};

/// The span without those at its end that are there to write on.
Span without_answer_lines(const Layout& layout, Span span);

/// What each span takes up on the pages: from above its first line, with what stands higher on it, to above
/// the line after it, or to the end of the page or column where that is on another. Spans ascend and don't
/// overlap.
std::vector<std::vector<PageStrip>> strips_of(const Layout& layout, const Shifts& shifts,
                                              const std::vector<Span>& spans);

} // namespace inkturn::printed
