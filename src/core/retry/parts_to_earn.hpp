#pragma once

#include "inkturn/retry/retry.hpp"

#include <vector>

namespace inkturn {

/// Whether a slip or a misreading is stated as the reason.
inline bool is_slip(const PartMarks& marks) {
    return marks.reason() == Reason::slip || marks.reason() == Reason::misread;
}

/// What came of a sitting.
struct Turns {
    const std::vector<Reattempt>& reattempts;
    const std::vector<AskedAgain>& asked_again;

    /// Null where that turn was not asked for again.
    const AskedAgain* find_again(const Question& question, int turn) const;
};

/// Goes through the turns of a question and keeps which of its parts the next one is to earn. Paper and
/// question must outlive it.
class PartsToEarn {
  public:
    /// After the sitting: what it missed.
    PartsToEarn(const Paper& paper, const Question& question, const Sitting& sitting);

    const std::vector<bool>& of_next() const { return of_next_; }

    /// Whether the re-attempt got the question. Parts missed again are asked again, and so are those lost
    /// anew, unless by a slip or a misreading.
    bool take(const Reattempt& reattempt);

    /// Once more, what the sitting missed.
    void ask_again();

  private:
    const Paper& paper_;
    const Question& question_;
    std::vector<bool> missed_in_sitting_; ///< of Question::parts
    std::vector<bool> of_next_;           ///< likewise
};

} // namespace inkturn
