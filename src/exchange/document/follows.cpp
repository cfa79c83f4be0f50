#include "exchange/document/document.hpp"

#include "inkturn/base/error.hpp"

namespace inkturn {

void check_follows(const Paper& paper, const Question& question, const Sitting& sitting,
                   const std::vector<Reattempt>& earlier, const std::vector<AskedAgain>& asked_again,
                   const Reattempt& reattempt) {
    const std::string which = "turn " + std::to_string(reattempt.turn) + " of question " + question.label;
    const auto open = turn_to_follow(paper, question, sitting, earlier, asked_again);
    if (!open && earlier.empty())
        throw Error(which + ": the sitting did not miss the question");
    if (!open)
        throw Error(which + ": the question was secured before");
    if (open->turn != reattempt.turn)
        throw Error(which + ": turn " + std::to_string(open->turn) + " comes next");
    if (reattempt.day < open->dropped_on)
        throw Error(which + " on " + iso(reattempt.day) + ": the question was missed on " +
                    iso(open->dropped_on) + "; a re-attempt can't come before that");
}

} // namespace inkturn
