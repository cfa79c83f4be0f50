#pragma once

#include "inkturn/base/length.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// A box on a printed page, from the page's top left corner; `right` and `bottom` are not less than `left`
/// and `top`.
struct PrintedBox {
    Points left;
    Points top;
    Points right;
    Points bottom;
};

/// A run of characters without a blank, as it stands on the page.
struct PrintedWord {
    std::string text; ///< UTF-8, not empty
    PrintedBox box;
};

/// What can be read on a page of a document.
struct PrintedPage {
    Points width;
    Points height;
    std::vector<PrintedWord> words; ///< in any order
};

/// A sign at the page's side, beyond what printers reach.
bool is_crop_mark(const PrintedWord& word, const PrintedPage& page);

/// Whether a word runs up or down the page: it has several characters and is much higher than wide.
bool is_turned(const PrintedWord& word);

/// The words of a page that can be used, those written upright: boxes that are finite, not inverted and at
/// least partly on the page.
std::vector<const PrintedWord*> upright_words(const PrintedPage& page);

/// A strip of a page or, where the page has two, of a column.
struct PageStrip {
    std::size_t page; ///< position of the page, from 0
    Points top;       ///< from the page's top
    Points bottom;    ///< below top
    Points left;      ///< from the page's left edge
    Points right;
};

} // namespace inkturn
