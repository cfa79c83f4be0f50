#pragma once

#include "inkturn/paper/picture.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/turn_outcome.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string_view>
#include <vector>

namespace inkturn {

/// What has become of a turn.
enum class TurnState : std::uint8_t {
    open,
    recorded,
    secured,   ///< it does not come round: the question was got before
    let_go,    ///< off the plan until it is taken back
    replaced,  ///< its paper was sat again later
    too_little ///< what was missed makes no retry by the candidate's wishes
};

std::string_view name(TurnState state) noexcept;

/// One turn of a question, and all that is on file about the question.
struct RetryHistory {
    RetryId id;
    std::shared_ptr<const Paper> paper;
    std::size_t question; ///< position in Paper::questions()
    Seconds allowance;
    TurnState state;
    std::optional<Retry> open;             ///< the turn that is open now, this one or a later one
    std::optional<LetGo> let_go;           ///< of that turn
    std::vector<QuestionAttempt> attempts; ///< the sitting, then the turns recorded
    bool exams_are_over;                   ///< of its subject
    std::vector<PictureOnFile> pictures{}; ///< of the question, as they were added

    const Question& paper_question() const { return paper->question(question); }
    /// Of Question::parts: what the turn is to earn.
    const std::vector<bool>& to_earn() const;
    std::size_t count_of_notes() const;
};

/// Without pictures. `retries` are the candidate's open ones with their days. Throws Error where the
/// candidate has no such sitting, its paper no such question, the sitting did not miss it, or an earlier turn
/// was not recorded yet.
RetryHistory history_of(const Candidate& candidate, const RetryId& id, const std::vector<Retry>& retries,
                        Day today);

/// Those that show the question, one of its parts, or the question that it is a part of.
std::vector<PictureOnFile> pictures_of_question(std::vector<PictureOnFile> pictures, const Paper& paper,
                                                const Question& question);

} // namespace inkturn
