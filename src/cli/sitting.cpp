#include "cli/commands.hpp"
#include "cli/entries.hpp"

#include "exchange/json.hpp"
#include "inkturn/error.hpp"
#include "inkturn/number.hpp"
#include "sheet/sittings.hpp"
#include "sheet/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string sitting;
    std::vector<std::string> entries;
    std::string date;
    std::string extra_time;
    bool yes = false;
    bool json = false;
};

SittingId id_of(const Options& options) {
    return SittingId{parse_whole_number(options.sitting, 1, 2'000'000'000, "sitting")};
}

void list(const Context& context, const Options& options) {
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const std::vector<Retry> retries = open_retries(candidate, context.date_today());
    if (options.json) {
        context.out << json_of(candidate, retries).dump(2) << '\n';
        return;
    }
    if (candidate.sittings.empty()) {
        context.out << "No sittings of candidate " << visible(candidate.code)
                    << " on file.\nNext: inkturn log PAPER PART=MARKS... --rest full\n";
        return;
    }
    context.out << sittings_table(candidate, retries) << "\nNext: inkturn sitting show "
                << static_cast<std::int64_t>(candidate.sittings.back().id) << '\n';
}

void show(const Context& context, const Options& options) {
    Store store = context.store_to_read();
    const Candidate candidate = context.candidate_of(store, id_of(options));
    const SittingRecord& record = find_sitting(candidate, id_of(options));
    const std::vector<Retry> retries = open_retries(candidate, context.date_today());
    keep_days(store, retries);
    if (options.json) {
        context.out << json_of(record, candidate, retries).dump(2) << '\n';
        return;
    }
    print_sitting(context, record, candidate, retries, true);
}

/// The sitting with what was typed in place of what stood there.
Sitting changed(const Context& context, const Options& options, const SittingRecord& record) {
    Sitting sitting = record.sitting;
    if (!options.date.empty())
        sitting.day = context.date_of(options.date);
    if (!options.extra_time.empty())
        sitting.extra_time =
            ExtraTime(parse_whole_number(options.extra_time, 0, ExtraTime::most_percent, "--extra-time"));
    sitting.parts = amended(*record.paper, sitting.parts, parse_entries(options.entries));
    check_can_replace(*record.paper, sitting, record, context.date_today());
    return sitting;
}

void amend(const Context& context, const Options& options) {
    if (options.entries.empty() && options.date.empty() && options.extra_time.empty())
        throw UsageError(
            "sitting amend: say what to change: an ENTRY, --date or --extra-time. See 'inkturn sitting amend "
            "--help'");
    Store store = context.store_to_write();
    Store::Change change(store);
    const std::string code = context.candidate_of(store, id_of(options)).code;
    const Candidate before = store.candidate(code);
    store.change_sitting(id_of(options), changed(context, options, find_sitting(before, id_of(options))));
    const Candidate candidate = store.candidate(code);
    const std::vector<Retry> retries = open_retries(candidate, context.date_today());
    store.keep_days(retries);
    change.commit();

    const SittingRecord& record = find_sitting(candidate, id_of(options));
    if (options.json)
        context.out << json_of(record, candidate, retries).dump(2) << '\n';
    else
        print_sitting(context, record, candidate, retries);
}

void remove(const Context& context, const Options& options) {
    Store store = context.store_to_write();
    const Candidate candidate = context.candidate_of(store, id_of(options));
    const SittingRecord& record = find_sitting(candidate, id_of(options));
    const std::string what = "sitting " + options.sitting + " (" + record.paper->id() + " on " +
                             spoken(record.sitting.day) + ", " + candidate.code + ")";
    if (!options.yes && !context.confirmed("Remove " + what + " and its retries?"))
        throw Error("nothing was removed");
    Store::Change change(store);
    store.remove_sitting(record.id);
    change.commit();
    context.out << "Removed " << visible(what) << ".\n";
}

} // namespace

void add_sitting(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* sitting = app.add_subcommand("sitting", "Sittings on file: list, show, amend, remove");
    sitting->require_subcommand(0, 1);
    sitting->footer("Example:\n  inkturn sitting list");

    CLI::App* list_all = sitting->add_subcommand("list", "List a candidate's sittings");
    list_all->add_flag("--json", options->json, "Print JSON");
    list_all->footer("Example:\n  inkturn sitting list --candidate K07");
    list_all->callback(
        [options, &context] { context.run = [options, &context] { list(context, *options); }; });

    CLI::App* show_one = sitting->add_subcommand("show", "Show a sitting: marks by ink, its retries");
    show_one->add_option("SITTING", options->sitting, "Its number")->required();
    show_one->add_flag("--json", options->json, "Print JSON");
    show_one->footer("Example:\n  inkturn sitting show 12");
    show_one->callback(
        [options, &context] { context.run = [options, &context] { show(context, *options); }; });

    CLI::App* amend_one = sitting->add_subcommand("amend", "Correct what was logged; its retries follow");
    amend_one->add_option("SITTING", options->sitting, "Its number")->required();
    amend_one->add_option("ENTRY", options->entries, "PART=MARKS[:REASON] in place of what stands there");
    amend_one->add_option("--date", options->date, "The day it was sat")->type_name("D");
    amend_one->add_option("--extra-time", options->extra_time, "Extra time in percent, as granted")
        ->type_name("P");
    amend_one->add_flag("--json", options->json, "Print JSON");
    amend_one->footer("Example:\n  inkturn sitting amend 12 7b=2+1+3:method");
    amend_one->callback(
        [options, &context] { context.run = [options, &context] { amend(context, *options); }; });

    CLI::App* remove_one = sitting->add_subcommand("remove", "Take a sitting off file, with its retries");
    remove_one->add_option("SITTING", options->sitting, "Its number")->required();
    remove_one->add_flag("--yes", options->yes, "Don't ask");
    remove_one->footer("Example:\n  inkturn sitting remove 12");
    remove_one->callback(
        [options, &context] { context.run = [options, &context] { remove(context, *options); }; });
}

} // namespace inkturn
