#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/turn_outcome.hpp"
#include "view/page/page_pictures.hpp"
#include "view/page/print_size.hpp"
#include "view/page/question_set.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A retry with the pictures on file of its question and mark scheme, in reading order.
struct BookletItem {
    Retry retry;
    std::vector<SharedPicture> question;     ///< empty: the booklet says where to find the question
    std::vector<SharedPicture> scheme;       ///< empty: the booklet says that there is none
    std::vector<QuestionAttempt> attempts{}; ///< so far; shown with the mark scheme
};

struct BookletOfCandidate {
    std::string candidate;
    std::vector<BookletItem> items;  ///< by day; those without one last
    std::vector<QuestionSet> sets{}; ///< drawn papers to sit

    bool is_empty() const { return items.empty() && sets.empty(); }
};

/// The retries of some days, and the drawn papers to sit then, to be printed and worked on paper.
struct Booklet {
    DaySpan span;
    std::vector<BookletOfCandidate> candidates;
    PrintSize size = PrintSize::usual;
};

/// A page of HTML that stands alone, to print on A4. Each candidate with retries starts on a new sheet with
/// the code on it, and without a cover; short retries share a sheet. All mark schemes follow the last
/// candidate, once per question, and each picture is in the page once.
std::string to_html(const Booklet& booklet);

} // namespace inkturn
