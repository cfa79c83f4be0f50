#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/paper/picture.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/turn_outcome.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A retry with the pictures on file of its question and mark scheme, in reading order.
struct BookletItem {
    Retry retry;
    std::vector<Picture> question;           ///< empty: the booklet says where to find the question
    std::vector<Picture> scheme;             ///< empty: the booklet says that there is none
    std::vector<QuestionAttempt> attempts{}; ///< so far; shown with the mark scheme
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

/// Ruled lines for working, a centimetre apart: two per mark, 4 to 16. Fewer, though not below 8, if that
/// keeps the question with its pictures and boxes on one sheet.
int working_lines(const BookletItem& item);

/// A page of HTML that stands alone, to print on A4. Each candidate with retries starts on a new sheet with
/// the code on it; all mark schemes follow the last candidate, once per question.
std::string to_html(const Booklet& booklet);

} // namespace inkturn
