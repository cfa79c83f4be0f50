#include "cli/student/retry_lines.hpp"

#include "cli/student/retried_recorded.hpp"
#include "cli/terminal.hpp"

#include "exchange/class/retried_lines.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

/// A re-attempt before its window, or without a mark, is recorded as 'inkturn retry' records it.
RetriedOptions options_of_lines(const Context& context, const std::vector<std::string>& accepted) {
    RetriedOptions options;
    options.file.today = context.date_today();
    options.file.accepted = accepted;
    options.file.accepted.emplace_back("early");
    if (std::find(accepted.begin(), accepted.end(), "not-done") == accepted.end())
        options.file.accepted.emplace_back("no-marks");
    options.of_candidate = context.candidate_code();
    return options;
}

/// Pasted on a terminal: up to a line that ends as those of pages do.
std::string pasted_text(const Context& context) {
    if (stderr_is_terminal())
        context.err << "Paste the whole line of the page, from inkturn; to ;end, then press Enter.\n"
                       "Ctrl-D ends it without one.\n"
                    << std::flush;
    std::string text;
    std::string line;
    while (std::getline(context.in, line)) {
        text += line + '\n';
        const std::string end = lower_case(trimmed(line));
        if (end.size() >= 4 && end.compare(end.size() - 4, 4, ";end") == 0)
            break;
    }
    return text;
}

/// Which of them came before their windows opened, in lines.
std::string early_text(const Store& store, const ClassRetried& retried, Day today) {
    std::string text;
    for (const RetriedOnce& one : retried.added) {
        const auto window = window_of(store.candidate(one.candidate), one.id, today);
        if (window && one.reattempt.day < window->opens)
            text += text_line("The window of " + to_text(one.id) + " opens on " + day_text(window->opens) +
                              ". This one still counts, but a longer gap tells you more.");
    }
    return text;
}

} // namespace

void record_lines(const Context& context, const std::vector<std::string>& accepted) {
    const InputFile file("-", context);
    const std::string text = stdin_is_terminal() ? pasted_text(context) : whole_text(file);
    if (!holds_returned_lines(text))
        throw Error("standard input holds no line to record: paste the whole line of the page, from inkturn; "
                    "to ;end");
    const RetriedOptions options = options_of_lines(context, accepted);
    Store store = context.store_to_write();
    Store::Change change(store);
    const ClassRetried retried = read_class_retried(store, text, options);
    const bool is_sound = retried.problems.empty() && retried.doubts.empty();
    const std::string early = early_text(store, retried, options.file.today);
    const NextTurns next = is_sound ? record_retried(change, retried, options.file.today) : NextTurns();
    if (is_sound)
        change.commit();
    if (context.json)
        context.out << json_of(retried) << '\n';
    refuse_retried(context, file.name(), retried);
    if (context.json)
        return;
    context.out << context.heading("Recorded") << ' ' << count_text(retried.added.size(), "re-attempt")
                << ".\n";
    context.out << repeated_line(retried);
    if (retried.unchanged > 0)
        context.out << count_text(retried.unchanged, "re-attempt") << " already on file, unchanged.\n";
    if (!retried.added.empty())
        context.out << '\n' << recorded_table(retried, next) << '\n';
    context.out << early << context.next("today");
}

} // namespace inkturn
