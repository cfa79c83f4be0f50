#include "exchange/pdf/margins.hpp"

#include <algorithm>

namespace inkturn {
namespace {

bool has_digit(const PrintedWord& word) {
    return word.text.find_first_of("0123456789") != std::string::npos;
}

/// The columns of a page between those in which words run up its edges or crop marks stand.
struct Between {
    Points left;
    Points right;
};

Between inner_edges(const PrintedPage& page) {
    constexpr double edge_of_page = 0.09; // of its width
    Between between{Points(0), page.width};
    for (const PrintedWord& word : page.words) {
        if (!is_turned(word) && !is_crop_mark(word, page))
            continue;
        if (word.box.right < edge_of_page * page.width)
            between.left = std::max(between.left, word.box.right);
        if (word.box.left > (1 - edge_of_page) * page.width)
            between.right = std::min(between.right, word.box.left);
    }
    return between;
}

} // namespace

PageStrip between_margins(const PageStrip& strip, const PrintedPage& page) {
    Between between = inner_edges(page);
    for (const PrintedWord& word : page.words) {
        const auto [left, top, right, bottom] = word.box;
        if (is_turned(word) || bottom <= strip.top || top >= strip.bottom)
            continue;
        if (left < between.left && (right > between.left || has_digit(word)))
            between.left = Points(0);
        if (right > between.right && (left < between.right || has_digit(word)))
            between.right = page.width;
    }
    PageStrip inner = strip;
    constexpr Points clearance{1};
    if (between.left > Points(0))
        inner.left = std::max(strip.left, between.left + clearance);
    if (between.right < page.width)
        inner.right = std::min(strip.right, between.right - clearance);
    return inner;
}

PrintedBox text_box(const PrintedPage& page) {
    PrintedBox box{page.width / 2, page.height / 2, page.width / 2, page.height / 2};
    for (const PrintedWord* const word : upright_words(page)) {
        box.left = std::min(box.left, word->box.left);
        box.top = std::min(box.top, word->box.top);
        box.right = std::max(box.right, word->box.right);
        box.bottom = std::max(box.bottom, word->box.bottom);
    }
    return box;
}

} // namespace inkturn
