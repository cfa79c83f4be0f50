#include "inkturn/retry/turn_outcome.hpp"

#include "core/retry/parts_to_earn.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace inkturn {
namespace {

std::vector<bool> missed_by_part(const Paper& paper, const Question& question, const Sitting& sitting) {
    check_covers(paper, sitting.parts);
    std::vector<bool> missed;
    for (const std::size_t position : question.parts)
        missed.push_back(is_missed(paper, paper.part(position), sitting.parts[position]));
    return missed;
}

using Outcomes = std::vector<TurnOutcome>;

/// After the first, which is the sitting's.
Outcomes::const_iterator outcome_of(const Outcomes& all, const RetryId& id) {
    return std::find_if(all.begin(), all.end(),
                        [&](const TurnOutcome& outcome) { return outcome.turn == id.turn; });
}

} // namespace

const AskedAgain* Turns::find_again(const Question& question, int turn) const {
    const auto again = std::find_if(asked_again.begin(), asked_again.end(), [&](const AskedAgain& one) {
        return one.question == question.label && one.turn == turn;
    });
    return again == asked_again.end() ? nullptr : &*again;
}

PartsToEarn::PartsToEarn(const Paper& paper, const Question& question, const Sitting& sitting)
    : paper_(paper),
      question_(question),
      missed_in_sitting_(missed_by_part(paper, question, sitting)),
      of_next_(missed_in_sitting_) {}

bool PartsToEarn::take(const Reattempt& reattempt) {
    for (std::size_t i = 0; i < of_next_.size(); ++i) {
        const PartMarks& marks = reattempt.parts[i];
        const bool waits = of_next_[i] && !marks.counts();
        of_next_[i] = waits || (is_missed(paper_, paper_.part(question_.parts[i]), marks) &&
                                (of_next_[i] || !is_slip(marks)));
    }
    return std::none_of(of_next_.begin(), of_next_.end(), [](bool is_left) { return is_left; });
}

void PartsToEarn::ask_again() {
    for (std::size_t i = 0; i < of_next_.size(); ++i)
        of_next_[i] = of_next_[i] || missed_in_sitting_[i];
}

std::vector<TurnOutcome> outcomes(const Paper& paper, const Question& question, const Sitting& sitting,
                                  const std::vector<Reattempt>& reattempts,
                                  const std::vector<AskedAgain>& asked_again) {
    const Turns turns{reattempts, asked_again};
    PartsToEarn parts(paper, question, sitting);
    std::vector<TurnOutcome> all{{0, false, parts.of_next()}};
    for (const Reattempt& reattempt : reattempts) {
        if (reattempt.question != question.label)
            continue;
        question_of(paper, reattempt); // it has marks for each part, or this throws
        const bool got = parts.take(reattempt);
        if (turns.find_again(question, reattempt.turn + 1))
            parts.ask_again();
        all.push_back({reattempt.turn, got, parts.of_next()});
    }
    return all;
}

std::vector<TurnOutcome> outcomes(const SittingRecord& record, const Question& question) {
    return outcomes(*record.paper, question, record.sitting, record.reattempts, record.asked_again);
}

std::vector<QuestionAttempt> attempts_at(const SittingRecord& record, const Question& question) {
    std::vector<TurnOutcome> all = outcomes(record, question);
    auto outcome = all.begin();
    std::vector<QuestionAttempt> attempts{{std::move(*outcome), record.sitting.day, {}, {}}};
    for (const std::size_t position : question.parts) {
        attempts.front().parts.push_back(record.sitting.parts[position]);
        const auto noted = record.sitting.notes.find(record.paper->part(position).label);
        if (noted != record.sitting.notes.end())
            attempts.front().notes.insert(*noted);
    }
    for (const Reattempt& reattempt : record.reattempts)
        if (reattempt.question == question.label)
            attempts.push_back({std::move(*++outcome), reattempt.day, reattempt.parts, reattempt.notes});
    return attempts;
}

bool is_got(const SittingRecord& record, const RetryId& id) {
    const Question& question = question_of(*record.paper, get_reattempt(record, id));
    const std::vector<TurnOutcome> all = outcomes(record, question);
    return outcome_of(all, id)->got;
}

std::vector<LostPart> lost_in_turn(const SittingRecord& record, const RetryId& id) {
    const Reattempt& reattempt = get_reattempt(record, id);
    const Paper& paper = *record.paper;
    const Question& question = question_of(paper, reattempt);
    const std::vector<TurnOutcome> all = outcomes(record, question);
    const auto outcome = outcome_of(all, id);
    const std::vector<bool>& to_earn = std::prev(outcome)->to_earn;
    std::vector<LostPart> lost;
    for (std::size_t place = 0; place < question.parts.size(); ++place) {
        const Part& part = paper.part(question.parts[place]);
        const PartMarks& marks = reattempt.parts[place];
        if (const Marks of_part = marks_lost(part, marks); of_part > Marks(0))
            lost.push_back({place, of_part, marks.reason(), !to_earn[place] && is_missed(paper, part, marks),
                            outcome->to_earn[place]});
    }
    return lost;
}

Notes notes_before(const SittingRecord& record, const Question& question, int turn) {
    Notes notes;
    for (const QuestionAttempt& attempt : attempts_at(record, question))
        if (attempt.outcome.turn < turn)
            notes = amended(std::move(notes), attempt.notes);
    return notes;
}

} // namespace inkturn
