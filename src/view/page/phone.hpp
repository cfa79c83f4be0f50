#pragma once

#include "inkturn/plan/plan.hpp"
#include "inkturn/retry/exam.hpp"
#include "view/page/booklet.hpp"
#include "view/page/question_set.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A candidate's week, to be worked with a phone beside the paper.
struct PhonePage {
    std::string candidate;
    DaySpan span;
    Plan week;                       ///< the days of the span
    std::vector<Exam> exams;         ///< of the candidate
    std::vector<BookletItem> items;  ///< the retries of these days, in their order
    std::string said{};              ///< what else the plan says, plain text; empty: nothing
    std::vector<QuestionSet> sets{}; ///< the drawn papers that are to be sat on these days
};

/// A page of HTML that stands alone and needs no network: what to do by day, the questions to retry and
/// those of sets, mark schemes folded, boxes for marks by ink, and a line to copy back that a ReturnedLine is
/// read from.
std::string to_html(const PhonePage& page);

} // namespace inkturn
