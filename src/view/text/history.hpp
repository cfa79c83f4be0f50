#pragma once

#include "inkturn/retry/history.hpp"
#include "view/text/table.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `Retry 12q7t2: question 7 of pure-1, turn 2, 12 marks in 14:24`.
std::string heading_of(const RetryHistory& shown);

/// By when it is to be done, or why it does not come round, and what it is to earn; in lines.
std::string what_to_do(const RetryHistory& shown, Day today);

/// One row per part of the question: marks, codes, topic, and which are to be earned.
Table parts_table(const RetryHistory& shown);

/// How to get at the pictures of the question, or where to find it without one; in lines.
std::string pictures_text(const RetryHistory& shown);

/// One row per attempt and part: marks by ink and the reason.
Table attempts_table(const Paper& paper, const Question& question,
                     const std::vector<QuestionAttempt>& attempts);

/// The re-attempts of a sitting's questions with what came of them, and what was noted; begins with a blank
/// line, empty without one.
std::string reattempts_text(const SittingRecord& record);

/// What was noted in attempts, a note a line: `Noted in the sitting on part 7b: sign of cos.` Empty without
/// one.
std::string notes_text(const std::vector<QuestionAttempt>& attempts);

/// The same for one attempt, without saying which.
std::string notes_text(const Notes& notes);

/// `the sitting`, `turn 2`.
std::string attempt_name(const QuestionAttempt& attempt);

} // namespace inkturn
