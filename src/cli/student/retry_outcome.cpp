#include "cli/student/retry_outcome.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/retry.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <ostream>

namespace inkturn {
namespace {

void print_next(const Context& context, const Retry& next) {
    context.out << "Not secured yet: " << next.missed_marks.count() << " of "
                << next.paper_question().marks.count() << " marks missed.\n";
    if (!next.day) {
        context.out << "No day is left for turn " << next.id.turn << " before the exam.\n";
        return;
    }
    context.out << "Turn " << next.id.turn << " is " << to_text(next.id) << ", on " << day_text(*next.day)
                << " (window " << day_text(DaySpan{next.window->opens, next.window->closes}) << ").\n";
}

/// Marks may be lost in a part that is got at a share of them.
std::string got_text(const Paper& paper, const Question& question, const Reattempt& done) {
    for (std::size_t i = 0; i < question.parts.size(); ++i)
        if (got_at(paper, paper.part(question.parts[i])) != GotAt() &&
            marks_lost(paper.part(question.parts[i]), done.parts[i]) > Marks(0))
            return "Got";
    return "Full marks";
}

void print_without_retry(const Context& context, const Missed& missed, const Question& question) {
    context.out << "Not secured: " << missed.marks.count() << " of " << question.marks.count()
                << " marks missed, which makes no retry\nby your wishes (inkturn plan --missed-from, "
                   "--slips).\n";
}

} // namespace

std::optional<Retry> open_retry(const std::vector<Retry>& retries, const RetryId& id) {
    const auto found = std::find_if(retries.begin(), retries.end(), [&](const Retry& retry) {
        return retry.id.sitting == id.sitting && retry.id.question == id.question;
    });
    if (found == retries.end())
        return std::nullopt;
    return *found;
}

void print_retried(const Context& context, const Candidate& candidate, const RetryId& id,
                   const KeptTimetable& kept) {
    const auto next = open_retry(kept.retries, id);
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    const Reattempt& done =
        *std::find_if(record.reattempts.begin(), record.reattempts.end(), [&](const Reattempt& reattempt) {
            return reattempt.question == id.question && reattempt.turn == id.turn;
        });
    const Question& question = question_of(*record.paper, done);
    const bool got = is_got(*record.paper, question, record.sitting, done);
    const auto print = [&] {
        if (next)
            print_next(context, *next);
        else if (got)
            context.out << got_text(*record.paper, question, done) << ": question " << id.question << " of "
                        << record.paper->id() << " is secured.\n";
        else
            print_without_retry(context, missed_in(*record.paper, question, done),
                                counted_of(*record.paper, question, record.sitting.parts));
        context.out << changes_text(kept.moved) << "Next: inkturn today\n";
    };
    context.answer([&] { return json_of_outcome(id, got, next); }, print);
}

} // namespace inkturn
