#include "cli/commands.hpp"
#include "cli/output_file.hpp"

#include "exchange/document/document.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/facts.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string code;
    std::string new_code;
    OutputOptions output;
    bool dry_run = false;
    bool yes = false;
    bool json = false;
};

void check_on_file(const Store& store, const std::string& code) {
    if (!store.has_candidate(code))
        throw Error("no candidate " + code + " on file; 'inkturn candidate list' shows those that are");
}

std::string joined(const std::vector<std::string>& texts) {
    std::string line;
    for (const std::string& text : texts)
        line += (line.empty() ? "" : ", ") + text;
    return line;
}

void list(const Context& context, const Options& options) {
    const Store store = context.store_to_read();
    std::vector<CandidateInClasses> candidates;
    for (const std::string& code : store.candidates())
        candidates.push_back({store.candidate(code), store.classes_of(code)});
    if (options.json) {
        context.out << json_of(candidates).dump(2) << '\n';
        return;
    }
    if (candidates.empty()) {
        context.out << "No candidates on file. Next: inkturn log PAPER PART=MARKS... --rest full\n";
        return;
    }
    Table table({{"candidate", Table::Align::left_may_be_cut},
                 {"sittings", Table::Align::right},
                 {"latest"},
                 {"classes", Table::Align::left_may_be_cut}});
    for (const auto& [candidate, classes] : candidates)
        table.add_row({candidate.code, std::to_string(candidate.sittings.size()),
                       candidate.sittings.empty() ? "-" : spoken(candidate.sittings.back().sitting.day),
                       joined(classes)});
    context.out << table << "\nNext: inkturn today --candidate CODE\n";
}

void export_one(const Context& context, const Options& options) {
    const Store store = context.store_to_read();
    check_on_file(store, options.code);
    write_output(context, options.output, to_text(document_of(store, options.code)));
    if (options.output.file != "-")
        context.out
            << "Wrote everything on candidate " << visible(options.code)
            << ", and nothing on anybody else.\nNext, where the other store is: inkturn import FILE\n";
}

void rename(const Context& context, const Options& options) {
    Store store = context.store_to_write();
    check_on_file(store, options.code);
    {
        Store::Change change(store);
        store.rename_candidate(options.code, options.new_code);
        change.commit();
    }
    store.compact();
    context.out << "Candidate " << visible(options.code) << " is now " << visible(options.new_code)
                << ".\nNext: inkturn candidate list\n";
}

void print_what_goes(const Context& context, Store& store, const std::string& code) {
    const Candidate candidate = store.candidate(code);
    std::size_t reattempts = 0;
    for (const SittingRecord& record : candidate.sittings)
        reattempts += record.reattempts.size();
    const std::vector<std::string> classes = store.classes_of(code);
    std::string what = counted(candidate.sittings.size(), "sitting") + ", " +
                       counted(reattempts, "re-attempt") + ", " +
                       counted(candidate.placements.size(), "day") + " chosen for retries";
    const std::size_t scripts = Desk(store).scripts(code).size();
    if (scripts > 0)
        what += ", " + counted(scripts, "script") + " not marked yet";
    if (const std::size_t sheets = FactsOnFile(store).sheets(code).size(); sheets > 0)
        what += ", " + counted(sheets, "sheet") + " of facts";
    if (!candidate.availability.is_default())
        what += ", the time set with days";
    if (!candidate.planned.empty())
        what += ", " + counted(candidate.planned.size(), "piece") + " of other work planned";
    if (!candidate.relearned.empty())
        what += ", " + counted(candidate.relearned.size(), "note") + " of topics relearned";
    if (!candidate.wishes.is_default())
        what += ", wishes for the plan";
    if (!classes.empty())
        what += ", membership of " + visible(joined(classes));
    context.out << context.heading("Candidate " + visible(code)) << "\n  " << wrapped(what + ".", 76, 2)
                << '\n';
}

void erase(const Context& context, const Options& options) {
    if (options.dry_run) {
        Store store = context.store_to_read();
        check_on_file(store, options.code);
        print_what_goes(context, store, options.code);
        context.out << "Nothing was erased. Next: the same without --dry-run\n";
        return;
    }
    Store store = context.store_to_write();
    check_on_file(store, options.code);
    print_what_goes(context, store, options.code);
    if (!options.yes && !context.confirmed("Erase all of this for good?"))
        throw Error("nothing was erased");
    {
        Store::Change change(store);
        store.erase_candidate(options.code);
        change.commit();
    }
    store.compact();
    context.out << "Erased; the store holds no trace of it. Copies of the store, backups, exports,\n"
                   "printed lists and the file that the marks came from may: see to those too.\n";
}

} // namespace

void add_candidate(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* group = app.add_subcommand("candidate", "Candidates' data: list, export, rename, erase");
    group->require_subcommand(0, 1);
    group->footer("Example:\n  inkturn candidate export K07 -o K07.json\n"
                  "Pupils' marks are personal data: the school's policy and local law come first.");

    CLI::App* list_all = group->add_subcommand("list", "List the candidates on file");
    list_all->add_flag("--json", options->json, "Print JSON");
    list_all->footer("Example:\n  inkturn candidate list");
    list_all->callback(
        [options, &context] { context.run = [options, &context] { list(context, *options); }; });

    CLI::App* export_file = group->add_subcommand("export", "Write everything on a candidate to a file");
    export_file->add_option("CODE", options->code, "The candidate")->required();
    options->output.add_to(*export_file);
    export_file->footer("Example:\n  inkturn candidate export K07 -o K07.json");
    export_file->callback(
        [options, &context] { context.run = [options, &context] { export_one(context, *options); }; });

    CLI::App* rename_one = group->add_subcommand("rename", "Give a candidate another code");
    rename_one->add_option("CODE", options->code, "The code on file")->required();
    rename_one->add_option("NEW", options->new_code, "The new code, which nobody has yet")->required();
    rename_one->footer("Example:\n  inkturn candidate rename me K07");
    rename_one->callback(
        [options, &context] { context.run = [options, &context] { rename(context, *options); }; });

    CLI::App* erase_one = group->add_subcommand("erase", "Erase everything on a candidate");
    erase_one->add_option("CODE", options->code, "The candidate")->required();
    erase_one->add_flag("--dry-run", options->dry_run, "Only say what would go");
    erase_one->add_flag("--yes", options->yes, "Don't ask");
    erase_one->footer("Example:\n  inkturn candidate erase K07 --dry-run");
    erase_one->callback(
        [options, &context] { context.run = [options, &context] { erase(context, *options); }; });
}

} // namespace inkturn
