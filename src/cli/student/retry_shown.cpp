#include "cli/student/retry_shown.hpp"

#include "cli/desk/at_desk.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "exchange/json/history.hpp"
#include "inkturn/store/desk.hpp"
#include "view/text/history.hpp"
#include "view/text/text.hpp"

#include <ostream>

namespace inkturn {
namespace {

/// `script`: it was written and is still to be marked.
std::string next_of(const RetryHistory& shown, const std::optional<Script>& script) {
    const std::string id = to_text(shown.id);
    if (script)
        return next_command(*script);
    if (shown.state == TurnState::let_go)
        return "inkturn retry " + id + " --undo takes it back";
    if (shown.state == TurnState::open)
        return "inkturn retry " + id + " --sit\nor its marks: inkturn retry " + id + " " +
               shown.paper->part(shown.paper_question().parts.front()).label + "=MARKS ...";
    return shown.open ? "inkturn retry " + to_text(shown.open->id) : "inkturn today";
}

void print_history(const Context& context, const RetryHistory& shown, const std::optional<Script>& script,
                   bool with_notes) {
    context.out << context.heading(heading_of(shown)) << '\n'
                << what_to_do(shown, context.date_today()) << '\n'
                << parts_table(shown) << '\n'
                << pictures_text(shown) << "\nEvery attempt so far:\n\n"
                << attempts_table(*shown.paper, shown.paper_question(), shown.attempts);
    if (with_notes)
        context.out << notes_text(shown.attempts);
    else if (const std::size_t count = shown.count_of_notes(); count > 0)
        context.out << '\n'
                    << count_text(count, "note") << ": shown after the attempt, or now with --notes.\n";
    context.out << "\nNext: " << next_of(shown, script) << '\n';
}

} // namespace

void show_retry(const Context& context, const RetryId& id, bool with_notes) {
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_of(store, id.sitting);
    const Day today = context.date_today();
    RetryHistory shown = history_of(candidate, id, retries_on_file(store, candidate, today), today);
    shown.pictures = pictures_of_question(store.pictures(), *shown.paper, shown.paper_question());
    context.answer([&] { return json_of(shown, candidate.code, with_notes); },
                   [&] { print_history(context, shown, Desk::find(store, script_id(id)), with_notes); });
}

} // namespace inkturn
