#include "cli/at_desk.hpp"
#include "cli/commands.hpp"

#include "exchange/json.hpp"
#include "inkturn/plan.hpp"
#include "sheet/retries.hpp"
#include "sheet/text.hpp"
#include "sheet/timetable.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    bool json = false;
};

/// `3 retries, sit pure-3`; the retries alone where there is nothing else.
std::string counted_for_today(const TodaysWork& work, std::size_t others) {
    std::string text = work.retries.empty() ? "" : counted_retries(work.retries.size());
    if (others > 0)
        text +=
            (text.empty() ? counted(others, "piece") : " and " + counted(others, "other piece")) + " of work";
    return text;
}

/// How a piece of planned work is begun, or noted as done.
std::string command_for(const PlannedWork& planned) {
    switch (planned.what) {
    case PlannedFor::sit:
        return planned.name.empty() ? "paper add FILE --id ID" : "sit " + planned.name;
    case PlannedFor::relearn:
        return "topics relearned '" + visible(planned.name) + "' (once it is)";
    case PlannedFor::recall:
        return "facts sheet";
    case PlannedFor::foreseen:
        break;
    }
    return "plan";
}

void print_next(const Context& context, const Candidate& candidate, const TodaysWork& work) {
    if (!work.retries.empty()) {
        const Retry& first = work.retries.front();
        const std::string id = to_text(first.id);
        context.out << "Next, once it is marked: inkturn retry " << id << " --full\n"
                    << "or part by part:         inkturn retry " << id << ' '
                    << first.paper->parts()[first.asked().parts.front()].label << "=MARKS... --rest full\n";
    } else {
        context.out << "Next: inkturn "
                    << (!work.planned.empty()        ? command_for(work.planned.front())
                        : work.next                  ? "plan"
                        : candidate.sittings.empty() ? "log PAPER PART=MARKS... --rest full"
                                                     : "sitting list")
                    << '\n';
    }
}

void print(const Context& context, const Candidate& candidate, const TodaysWork& work) {
    const std::vector<std::string> others = texts_of(work.planned);
    const bool is_empty = work.retries.empty() && others.empty();
    context.out << context.heading(spoken(work.day));
    if (is_empty) {
        context.out << ": nothing to retry for " << visible(candidate.code) << " today.\n";
    } else {
        context.out << ": " << counted_for_today(work, others.size()) << " for " << visible(candidate.code)
                    << (others.empty() ? ", " : ",\n") << length_text(work.asked) << " asked, "
                    << length_text(work.available) << " available\n\n";
        if (!work.retries.empty())
            context.out << retries_of_day(work.retries);
        for (const std::string& other : others)
            context.out << wrapped("- " + visible(other), Table::full_width, 2) << '\n';
        if (work.asked > work.available)
            context.out << "\nThat is " << length_text(work.asked - work.available)
                        << " more than the day has. Rest comes first: what is left\n"
                           "today is placed again tomorrow.\n";
    }
    if (work.next)
        context.out << (is_empty ? "" : "\n") << "After today: "
                    << (work.next->retries_alone ? counted_retries(work.next->count)
                                                 : counted(work.next->count, "piece") + " of work")
                    << " on " << spoken(work.next->day) << ".\n";
    for (const PlannedWork& passed : work.passed)
        context.out << wrapped("Planned for " + spoken(passed.day) +
                                   " and not done: " + visible(texts_of({passed}).front()) +
                                   ". inkturn plan finds it another day.",
                               Table::full_width)
                    << '\n';
    if (work.without_day > 0)
        context.out << counted_retries(work.without_day) << (work.without_day == 1 ? " has" : " have")
                    << " no day left before the exam.\n";
    print_next(context, candidate, work);
}

/// What was written and not marked through: without its marks nothing of it comes round.
void print_scripts(const Context& context, const std::vector<Script>& scripts) {
    for (const Script& script : scripts)
        context.out << (script.is_handed_in() ? "Not marked yet: " : "Its clock runs: ")
                    << (script.id.retry ? "retry " : "sitting ") << to_text(script.id) << " ("
                    << script.paper->id() << "). Next: " << next_command(script) << '\n';
}

void run(const Context& context, const Options& options) {
    Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const Day today = context.date_today();
    const std::vector<Retry> retries = open_retries(candidate, today);
    keep_days(store, retries);
    const std::vector<Script> scripts = Desk(store).scripts(candidate.code);
    const TodaysWork work = todays_work(candidate, retries, scripts, today);
    if (options.json) {
        context.out << json_of(work).dump(2) << '\n';
    } else {
        print(context, candidate, work);
        print_scripts(context, scripts);
    }
}

} // namespace

void add_today(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* today = app.add_subcommand("today", "What to retry today, and what else is planned");
    today->add_flag("--json", options->json, "Print JSON");
    today->footer("Example:\n  inkturn today");
    today->callback([options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
