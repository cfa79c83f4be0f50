#include "cli/at_desk.hpp"
#include "cli/commands.hpp"

#include "exchange/json.hpp"
#include "inkturn/plan.hpp"
#include "sheet/retries.hpp"
#include "sheet/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    bool json = false;
};

void print(const Context& context, const Candidate& candidate, const TodaysWork& work) {
    const PlannedDay& today = work.today;
    context.out << context.heading(spoken(today.day));
    if (today.retries.empty()) {
        context.out << ": nothing to retry for " << visible(candidate.code) << " today.\n";
    } else {
        context.out << ": " << counted_retries(today.retries.size()) << " for " << visible(candidate.code)
                    << ", " << length_text(today.asked) << " asked, " << length_text(today.available)
                    << " available\n\n"
                    << retries_of_day(today.retries);
        if (today.asked > today.available)
            context.out << "\nThat is " << length_text(today.asked - today.available)
                        << " more than the day has. Rest comes first: what is left\n"
                           "today is placed again tomorrow.\n";
    }
    if (work.next)
        context.out << (today.retries.empty() ? "" : "\n")
                    << "After today: " << counted_retries(work.next->count) << " on "
                    << spoken(work.next->day) << ".\n";
    if (work.without_day > 0)
        context.out << counted_retries(work.without_day) << (work.without_day == 1 ? " has" : " have")
                    << " no day left before the exam.\n";
    if (!today.retries.empty()) {
        const std::string id = to_text(today.retries.front().id);
        context.out << "Next, once it is marked: inkturn retry " << id << " --full\n"
                    << "or part by part:         inkturn retry " << id << ' '
                    << today.retries.front().paper->parts()[today.retries.front().asked().parts.front()].label
                    << "=MARKS... --rest full\n";
    } else {
        context.out << "Next: inkturn "
                    << (work.next                    ? "plan"
                        : candidate.sittings.empty() ? "log PAPER PART=MARKS... --rest full"
                                                     : "sitting list")
                    << '\n';
    }
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
    const TodaysWork work = todays_work(retries, candidate.availability, today);
    if (options.json) {
        context.out << json_of(work).dump(2) << '\n';
    } else {
        print(context, candidate, work);
        print_scripts(context, Desk(store).scripts(candidate.code));
    }
}

} // namespace

void add_today(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* today = app.add_subcommand("today", "What to retry today");
    today->add_flag("--json", options->json, "Print JSON");
    today->footer("Example:\n  inkturn today");
    today->callback([options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
