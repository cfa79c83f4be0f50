#include "inkturn/retry/history.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/retry/latest.hpp"

#include <algorithm>
#include <array>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 6> state_names{"open",    "recorded", "secured",
                                                      "dropped", "replaced", "too_little"};

TurnState state_of(const Candidate& candidate, const RetryId& id, const Question& question,
                   const std::vector<QuestionAttempt>& attempts) {
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    const int next = attempts.back().outcome.turn + 1;
    if (id.turn < next)
        return TurnState::recorded;
    if (id.turn > next)
        throw Error("no retry " + to_text(id) + " yet: record " +
                        to_text(RetryId{id.sitting, id.question, next}) + " first",
                    Error::Kind::conflict);
    if (!is_latest(candidate, record, question))
        return TurnState::replaced;
    if (open_turn(record, question, candidate.wishes.retries))
        return steering_of(candidate, id.sitting, id.question).let_go ? TurnState::let_go : TurnState::open;
    const bool is_secured = std::any_of(attempts.begin(), attempts.end(),
                                        [](const QuestionAttempt& attempt) { return attempt.outcome.got; });
    return is_secured ? TurnState::secured : TurnState::too_little;
}

} // namespace

std::string_view name(TurnState state) noexcept {
    return state_names[static_cast<std::size_t>(state)];
}

const std::vector<bool>& RetryHistory::to_earn() const {
    return attempts[static_cast<std::size_t>(id.turn) - 1].outcome.to_earn;
}

std::size_t RetryHistory::count_of_notes() const {
    std::size_t count = 0;
    for (const QuestionAttempt& attempt : attempts)
        count += attempt.notes.size();
    return count;
}

RetryHistory history_of(const Candidate& candidate, const RetryId& id, const std::vector<Retry>& retries,
                        Day today) {
    const Question& question = get_missed_question(candidate, id);
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    RetryHistory history{
        id,
        record.paper,
        *record.paper->find_question(id.question),
        question_allowance(question, part_allowances(*record.paper, record.sitting.extra_time)),
        TurnState::open,
        std::nullopt,
        steering_of(candidate, id.sitting, id.question).let_go,
        attempts_at(record, question),
        is_examined_by(candidate.exams, record.paper->subject(), today)};
    history.state = state_of(candidate, id, question, history.attempts);
    for (const Retry& retry : retries)
        if (retry.id.sitting == id.sitting && retry.id.question == id.question)
            history.open = retry;
    return history;
}

std::vector<PictureOnFile> pictures_of_question(std::vector<PictureOnFile> pictures, const Paper& paper,
                                                const Question& question) {
    const auto is_other = [&](const PictureOnFile& picture) {
        const bool is_of_part =
            std::any_of(question.parts.begin(), question.parts.end(),
                        [&](std::size_t part) { return paper.part(part).label == picture.question; });
        return picture.paper != paper.id() || picture.content != PictureContent::question ||
               !(is_of_part || picture.question == question.label ||
                 picture.question == question_of(question.label));
    };
    pictures.erase(std::remove_if(pictures.begin(), pictures.end(), is_other), pictures.end());
    return pictures;
}

} // namespace inkturn
