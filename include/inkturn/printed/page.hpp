#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// A box on a printed page, in points (1/72 inch) from the page's top left corner; `right` and `bottom` are
/// not less than `left` and `top`.
struct PrintedBox {
    double left;
    double top;
    double right;
    double bottom;
};

/// A run of characters without a blank, as it stands on the page.
struct PrintedWord {
    std::string text; ///< UTF-8, not empty
    PrintedBox box;
};

/// What can be read on a page of a document.
struct PrintedPage {
    double width; ///< points
    double height;
    std::vector<PrintedWord> words; ///< in any order
};

/// A strip of a page, from its left edge to its right one.
struct PageStrip {
    std::size_t page; ///< position of the page, from 0
    double top;       ///< points from the page's top
    double bottom;    ///< below top
    double left = 0;  ///< of a column, where the page has two; else the page's left edge
    double right = 0; ///< likewise; 0: the page's right edge
};

} // namespace inkturn
