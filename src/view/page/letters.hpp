#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/turn_outcome.hpp"
#include "view/page/print_size.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

struct LetterRetry {
    Retry retry;
    std::vector<QuestionAttempt> attempts{}; ///< so far; the last says what went wrong
};

/// What one candidate is to retry.
struct Letter {
    std::string candidate;
    std::string name{}; ///< empty: none is given
    std::vector<LetterRetry> retries;
};

/// Letters to a class, to be printed: one side of A4 each, in large print as many as they need.
struct Letters {
    DaySpan span; ///< on whose days the retries are planned
    Day hand_in;
    Day today;
    std::vector<Letter> letters; ///< those without retries get none
    PrintSize size = PrintSize::usual;
};

/// Whether its window opens only after the day on which all are handed in, so that it is due later.
bool is_due_later(const Retry& retry, Day hand_in);

/// What stands on each side of one of the letters, in the order in which it is to be done: late ones first,
/// then by the end of their windows. Of the usual size there is one side at most, with as many as fit it.
std::vector<std::vector<LetterRetry>> sides_of(Letter letter, const Letters& of);

/// A page of HTML that stands alone. A letter with more retries than fit its sides says how many are left for
/// the next one.
std::string to_html(const Letters& letters);

} // namespace inkturn
