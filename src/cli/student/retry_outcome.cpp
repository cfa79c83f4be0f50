#include "cli/student/retry_outcome.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/retry.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

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
                   const std::vector<Retry>& retries) {
    const auto next = open_retry(retries, id);
    const auto print = [&] {
        if (next)
            print_next(context, *next);
        else
            context.out << "Full marks: question " << id.question << " of "
                        << get_sitting(candidate, id.sitting).paper->id() << " is secured.\n";
        context.out << "Next: inkturn today\n";
    };
    context.answer([&] { return json_of_outcome(id, !next, next); }, print);
}

} // namespace inkturn
