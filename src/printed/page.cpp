#include "inkturn/printed/page.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace inkturn {
namespace {

constexpr Points unprinted{17}; // at a page's edges: farther out than printers reach

bool is_usable(const PrintedWord& word, const PrintedPage& page) {
    const PrintedBox& box = word.box;
    for (const Points edge : {box.left, box.top, box.right, box.bottom})
        if (!std::isfinite(edge.value()))
            return false;
    return !word.text.empty() && box.left <= box.right && box.right > Points(0) && box.left < page.width &&
           box.top < box.bottom && box.top >= unprinted && box.bottom <= page.height - unprinted &&
           box.bottom - box.top < page.height / 4 && !is_crop_mark(word, page);
}

/// Takes away what runs along the page's side: words turned, and short ones in line with them where no other
/// word reaches into their column.
void remove_margin(std::vector<const PrintedWord*>& words, Points width, bool is_left) {
    constexpr Points slack{1};
    Points left{std::numeric_limits<double>::infinity()};
    Points right = -left;
    for (const PrintedWord* const word : words)
        if (is_turned(*word) && (is_left ? word->box.right < 0.2 * width : word->box.left > 0.8 * width)) {
            left = std::min(left, word->box.left);
            right = std::max(right, word->box.right);
        }
    const auto is_within = [&](const PrintedWord* word) {
        return word->box.left >= left - slack && word->box.right <= right + slack;
    };
    if (std::all_of(words.begin(), words.end(), [&](const PrintedWord* word) {
            return is_within(word) || word->box.left >= right || word->box.right <= left;
        }))
        words.erase(std::remove_if(words.begin(), words.end(), is_within), words.end());
}

} // namespace

bool is_crop_mark(const PrintedWord& word, const PrintedPage& page) {
    const bool is_beside = word.box.left < unprinted || word.box.right > page.width - unprinted;
    return is_beside && std::none_of(word.text.begin(), word.text.end(),
                                     [](char c) { return is_letter_or_digit(c) || !is_ascii(c); });
}

bool is_turned(const PrintedWord& word) { // three characters may be `ii.`
    return character_count(word.text) >= 4 &&
           word.box.bottom - word.box.top > 2 * (word.box.right - word.box.left);
}

std::vector<const PrintedWord*> upright_words(const PrintedPage& page) {
    std::vector<const PrintedWord*> words;
    for (const PrintedWord& word : page.words)
        if (is_usable(word, page))
            words.push_back(&word);
    for (const bool is_left : {true, false})
        remove_margin(words, page.width, is_left);
    words.erase(
        std::remove_if(words.begin(), words.end(), [](const PrintedWord* word) { return is_turned(*word); }),
        words.end());
    return words;
}

} // namespace inkturn
