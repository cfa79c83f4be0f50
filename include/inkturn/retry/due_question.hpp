#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/retry/candidate.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// Whether an open retry can be done on one of the days: its window holds it, its own day is one of them, or
/// it is late and has days left.
bool is_due(const Retry& retry, DaySpan days);

/// A question, and whose retries of it are due on some days: what a lesson may go through.
struct DueQuestion {
    std::shared_ptr<const Paper> paper;
    std::size_t question = 0;            ///< position in Paper::questions()
    std::vector<std::string> candidates; ///< codes, ascending, none twice
    std::size_t planned = 0;             ///< candidates whose own plan has it on one of the days
    std::size_t late = 0;                ///< candidates whose window has closed
    Marks missed{};                      ///< of all these candidates together
    std::optional<Day> closes{};         ///< the first window that is still open to close

    const Question& paper_question() const { return paper->question(question); }
};

/// Those due for most candidates first, then those late for most, then by marks missed, paper and question.
std::vector<DueQuestion> due_questions(const std::vector<Retry>& retries, DaySpan days);

} // namespace inkturn
