#include "cli/commands.hpp"
#include "cli/desk/at_desk.hpp"
#include "cli/entries.hpp"
#include "cli/student/retried.hpp"

#include "exchange/json/json.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string id;
    std::vector<std::string> entries;
    std::string rest;
    std::string date;
    std::string events;
    bool sit = false;
    bool full = false;
    bool undo = false;
    bool json = false;
};

void print_early(const Context& context, const Retry& taken, Day day) {
    if (taken.window && day < taken.window->opens)
        context.out << "Its window opens on " << spoken(taken.window->opens)
                    << ".\nThis one counts all the same, but a longer gap tells more.\n";
}

void record(const Context& context, const Options& options, const RetryId& id) {
    if (options.entries.empty() != options.full)
        throw UsageError("retry: give the marks as ENTRY... or say --full. See 'inkturn retry --help'");
    const Day today = context.date_today();
    const Day day = context.date_of(options.date);
    const auto rest = options.full ? Rest::full : parse_rest(options.rest);
    const std::vector<Entry> entries = parse_entries(options.entries);

    Store store = context.store_to_write();
    Store::Change change(store);
    const Candidate before = context.candidate_of(store, id.sitting);
    Reattempt reattempt = take_retry(before, id, entries, rest, day, today);
    const auto taken = open_retry(open_retries(before, today), id);
    Desk desk(store);
    if (const auto script = desk.find(script_id(id))) {
        check_is_handed_in(*script);
        reattempt.clock = script->events;
        desk.remove(script->id);
    }
    store.add_reattempt(id.sitting, reattempt);
    store.keep_days(open_retries(store.candidate(before.code), today));
    change.commit();

    if (taken && !options.json)
        print_early(context, *taken, day);
    print_retried(context, store, id, options.json);
}

/// The question against the clock; its marks come after that.
void sit(const Context& context, const Options& options, const RetryId& id) {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    const Candidate candidate = context.candidate_of(store, id.sitting);
    write_script(context, store, blank_script(candidate, id, context.date_of(options.date), today),
                 {options.events, {}, options.json});
}

void undo(const Context& context, const Options& options, const RetryId& id) {
    Store store = context.store_to_write();
    Store::Change change(store);
    const Candidate before = context.candidate_of(store, id.sitting);
    check_can_be_undone(before, id);
    store.remove_reattempt(id);
    const std::vector<Retry> retries = open_retries(store.candidate(before.code), context.date_today());
    store.keep_days(retries);
    change.commit();

    const auto open = open_retry(retries, id);
    if (options.json) {
        context.out << json_of_outcome(id, false, open).dump(2) << '\n';
        return;
    }
    context.out << "Taken back: " << to_text(id) << " is open again";
    if (open && open->day)
        context.out << ", on " << spoken(*open->day);
    context.out << ".\n";
}

void run(const Context& context, const Options& options) {
    const bool has_marks = options.full || !options.entries.empty();
    if (options.undo && (has_marks || !options.rest.empty() || !options.date.empty()))
        throw UsageError("retry: --undo goes with no other option and no marks. See 'inkturn retry --help'");
    if (options.full && !options.rest.empty())
        throw UsageError("retry: say either --full or --rest. See 'inkturn retry --help'");
    if (options.sit && (options.undo || has_marks || !options.rest.empty()))
        throw UsageError(
            "retry: --sit goes with no marks: they are entered after it. See 'inkturn retry --help'");
    if (!options.events.empty() && !options.sit)
        throw UsageError("retry: --events goes with --sit. See 'inkturn retry --help'");
    if (options.sit && options.events.empty() && (options.json || !options.date.empty()))
        throw UsageError(
            "retry: --sit takes --date and --json with --events alone. See 'inkturn retry --help'");
    const RetryId id = parse_retry_id(options.id);
    if (options.sit)
        sit(context, options, id);
    else if (options.undo)
        undo(context, options, id);
    else
        record(context, options, id);
}

} // namespace

void add_retry(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* retry = app.add_subcommand("retry", "Record a re-attempt of a missed question, or sit it");
    retry->add_option("RETRY", options->id, "Its id, as 'inkturn today' shows it")->required();
    retry->add_option("ENTRY", options->entries, "PART=MARKS[:REASON], as in 'inkturn log'");
    retry->add_flag("--full", options->full, "All its marks earned in time");
    retry->add_option("--rest", options->rest, "Parts not named: earned in time, or not attempted")
        ->type_name("full|none");
    retry->add_option("--date", options->date, "The day it was done (today)")->type_name("D");
    retry->add_flag("--sit", options->sit, "Work it against the clock; marks come afterwards");
    retry
        ->add_option("--events", options->events,
                     "With --sit: take the times from a file, noted by hand; - reads standard input")
        ->type_name("FILE");
    retry->add_flag("--undo", options->undo, "Take back what was recorded of this retry");
    retry->add_flag("--json", options->json, "Print JSON");
    retry->footer("Example:\n  inkturn retry 12q7 7a=3 7b=2+1:slip\n  inkturn retry 12q7t2 --full\n  inkturn "
                  "retry 12q7 --sit");
    retry->callback([options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
