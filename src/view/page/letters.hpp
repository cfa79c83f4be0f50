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

/// Letters to a class, to be printed: one side of A4 each.
struct Letters {
    DaySpan span; ///< on whose days the retries are planned
    Day hand_in;
    Day today;
    std::vector<Letter> letters; ///< those without retries get none
    PrintSize size = PrintSize::usual;
};

/// The letter's retries in the order in which they are to be done: late ones first, then by the end of their
/// windows; as many as fit the side.
std::vector<LetterRetry> retries_that_fit(Letter letter, Day today, PrintSize size = PrintSize::usual);

/// A page of HTML that stands alone. A letter with more retries than fit its side says how many are left for
/// the next one.
std::string to_html(const Letters& letters);

} // namespace inkturn
