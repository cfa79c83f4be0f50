#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/paper/picture.hpp"
#include "inkturn/retry/candidate.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A retry with the pictures that are on file of its question and of its mark scheme, in reading order.
struct BookletItem {
    Retry retry;
    std::vector<Picture> question; ///< empty: the booklet says where to find the question
    std::vector<Picture> scheme;   ///< empty: the booklet says that there is none
};

struct BookletOfCandidate {
    std::string candidate;
    std::vector<BookletItem> items; ///< by day; those without one last
};

/// The retries of some days, to be printed and worked on paper.
struct Booklet {
    DaySpan span;
    std::vector<BookletOfCandidate> candidates;
};

/// Ruled lines for working, a centimetre apart: two a mark, 4 to 16. Fewer, but never under 8 for that
/// reason, where that keeps the question with its pictures and boxes on one sheet.
int working_lines(const BookletItem& item);

/// A page of HTML that stands alone, to print on A4. Each candidate with retries starts on a new sheet that
/// bears the code; all mark schemes follow after the last candidate, each question's once.
std::string to_html(const Booklet& booklet);

} // namespace inkturn
