#pragma once

#include "inkturn/retry/retry.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace inkturn {

/// What an attempt at a question came to.
struct TurnOutcome {
    int turn;                  ///< 0: the sitting
    bool got;                  ///< nothing is left to earn; false of the sitting
    std::vector<bool> to_earn; ///< of Question::parts: what the turn after it is to earn
};

/// The sitting, then its re-attempts of the question. The first turn is to earn the parts that the sitting
/// missed, a later one those that were missed again, and those that were lost anew unless by a slip or a
/// misreading; one that was asked for once more, what the sitting missed too. Throws Error where marks are
/// not those of the paper or the question.
std::vector<TurnOutcome> outcomes(const Paper& paper, const Question& question, const Sitting& sitting,
                                  const std::vector<Reattempt>& reattempts,
                                  const std::vector<AskedAgain>& asked_again = {});
std::vector<TurnOutcome> outcomes(const SittingRecord& record, const Question& question);

/// An attempt at a question with its marks.
struct QuestionAttempt {
    TurnOutcome outcome;
    Day day;
    std::vector<PartMarks> parts; ///< in the order of Question::parts
    Notes notes;                  ///< of these parts
};

/// The sitting, then its re-attempts of the question. Throws Error as outcomes() does.
std::vector<QuestionAttempt> attempts_at(const SittingRecord& record, const Question& question);

/// Whether the re-attempt got the question. Throws Error where there is none.
bool is_got(const SittingRecord& record, const RetryId& id);

/// Unaided marks short of the maximum in one part of a question, in a re-attempt.
struct LostPart {
    std::size_t place; ///< in Question::parts
    Marks marks;       ///< above 0
    std::optional<Reason> reason;
    bool is_new;     ///< the turn was not to earn it
    bool joins_next; ///< the turn after it is to earn it
};

/// In the order of the parts. Throws Error where nothing was recorded of the turn.
std::vector<LostPart> lost_in_turn(const SittingRecord& record, const RetryId& id);

/// What was noted about parts of the question in the sitting and in the turns before this one: the latest of
/// each part.
Notes notes_before(const SittingRecord& record, const Question& question, int turn);

} // namespace inkturn
