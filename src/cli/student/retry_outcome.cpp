#include "cli/student/retry_outcome.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/retry.hpp"
#include "view/text/history.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <optional>
#include <ostream>

namespace inkturn {
namespace {

void print_missed(const Context& context, const Retry& next) {
    context.out << "Not secured yet: " << next.missed_marks.count() << " of "
                << next.paper_question().marks.count() << " marks missed.\n";
}

void print_next(const Context& context, const Retry& next) {
    if (!next.day) {
        context.out << "No day is left for turn " << next.id.turn << " before the exam.\n";
        return;
    }
    context.out << "Turn " << next.id.turn << " is " << to_text(next.id) << ", on " << day_text(*next.day)
                << " (window " << day_text(DaySpan{next.window->opens, next.window->closes}) << ").\n";
}

/// What was noted in the attempts before, to be seen now that this one is done.
std::string noted_before(const SittingRecord& record, const Question& question, int turn) {
    std::string text;
    for (const auto& [label, note] : notes_before(record, question, turn))
        text += text_line("Noted before on part " + label + ": " + visible(note));
    return text;
}

/// Whether no part was left out that counted in the sitting.
bool is_of_whole_question(const SittingRecord& record, const Question& question, const Reattempt& done) {
    for (std::size_t i = 0; i < question.parts.size(); ++i)
        if (record.sitting.parts[question.parts[i]].counts() && !done.parts[i].is_set())
            return false;
    return true;
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

std::vector<PlanChange> beside(std::vector<PlanChange> changes, const RetryId& id) {
    changes.erase(std::remove_if(changes.begin(), changes.end(),
                                 [&](const PlanChange& change) {
                                     return change.kind == WorkKind::retry && change.what == to_text(id);
                                 }),
                  changes.end());
    return changes;
}

void print_retried(const Context& context, const Candidate& candidate, const RetryId& id,
                   const KeptTimetable& kept) {
    const auto next = open_retry(kept.retries, id);
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    const Reattempt& done = get_reattempt(record, id);
    const Paper& paper = *record.paper;
    const Question& question = question_of(paper, done);
    const bool tried_whole = is_of_whole_question(record, question, done);
    const bool got = is_got(record, id);
    const std::vector<LostPart> lost = lost_in_turn(record, id);
    const auto print = [&] {
        if (got)
            context.out << (lost.empty() && tried_whole ? "Full marks" : "Got") << ": question "
                        << id.question << " of " << paper.id() << " is secured.\n";
        else if (next)
            print_missed(context, *next);
        else
            print_without_retry(context, missed_in(paper, question, done),
                                counted_of(paper, question, record.sitting.parts));
        context.out << lost_text(paper, question, lost, next ? std::optional(next->id.turn) : std::nullopt);
        context.out << noted_before(record, question, id.turn) << notes_text(done.notes);
        if (next)
            print_next(context, *next);
        context.out << changes_text(next ? beside(kept.moved, next->id) : kept.moved)
                    << context.next("today");
    };
    context.answer([&] { return json_of_outcome(record, id, next); }, print);
}

} // namespace inkturn
