#include "cli/class/doubts_listed.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/remedies.hpp"
#include "cli/terminal.hpp"

#include "exchange/document/merge.hpp"
#include "exchange/document/twin.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct ImportOptions {
    std::string file;
    std::string as;
    std::vector<std::string> accepted;
    bool replace = false;
    bool dry_run = false;
};

Document read(const Context& context, const InputFile& file, const HowFar& told) {
    try {
        return read_document(file.stream(), context.date_today(), told);
    } catch (const Error& error) {
        throw error.within(file.name() + ": ");
    }
}

/// An export may be taken for two candidates by a slip of --as.
void doubt_whose(const Context& context, const ImportOptions& options, const Store& store,
                 const Document& document) {
    FileDoubts doubts(options.accepted, {DoubtKind::same_marks});
    const std::string twin =
        options.as.empty() || document.candidates.size() != 1 ? "" : find_twin(store, document, options.as);
    if (!twin.empty())
        doubts.raise(DoubtKind::same_marks,
                     {0, 0,
                      "candidate " + twin + " has every sitting of this export, mark for mark: is it " +
                          twin + "'s, and not " + options.as + "'s?"});
    refuse_open_doubts(context, doubts);
}

Merge merge_file(const Context& context, const ImportOptions& options, const InputFile& file) {
    MergeOptions how;
    how.today = context.date_today();
    how.replace = options.replace;
    if (!options.as.empty())
        how.as = options.as;
    constexpr double read_whole = 0.6; // of the time, about
    constexpr double merged_whole = 0.8;
    ProgressLine progress(context.err, "inkturn: importing", std::nullopt, context.quiet);
    const HowFar told = [&](double share) { progress.show_share(share); };
    Document document = read(context, file, part_of(told, 0, read_whole));
    Store store = options.dry_run ? context.store_to_read() : context.store_to_write();
    Store::Change change(store);
    std::vector<DrawnId> drawn_ids = settle_drawn_ids(store, how.as, document);
    doubt_whose(context, options, store, document);
    Merge merged = merge(change, document, how, part_of(told, read_whole, merged_whole));
    merged.drawn_ids = std::move(drawn_ids);
    if (merged.conflicts.empty() && !options.dry_run)
        change.commit();
    return merged;
}

void refuse_conflicts(const Context& context, const InputFile& file, const Merge& merged) {
    if (merged.conflicts.empty())
        return;
    for (const Error& conflict : merged.conflicts)
        context.err << visible(file.name()) << ": " << visible(worded(conflict)) << '\n';
    throw Error(count_text(merged.conflicts.size(), "conflict") + " between " + file.name() +
                " and the store; nothing was stored");
}

/// What was printed in the other store names other numbers.
std::string new_numbers_text(const Merge& merged) {
    std::vector<std::string> what;
    if (merged.sittings_added > 0)
        what = {"sittings", "retries"};
    if (merged.facts_added > 0)
        what.emplace_back("facts");
    if (merged.sheets_added > 0)
        what.emplace_back("sheets of facts");
    if (what.empty())
        return "";
    std::string named = joined(what, " and ");
    named.front() = upper(named.front());
    const std::string to_print =
        merged.sittings_added > 0 ? "booklets, letters and phone pages" : "their sheets";
    return text_line(named + " get new numbers in this store: print " + to_print + " from here.");
}

/// `Sittings: 3 added, 1 replaced, 2 already on file`; nothing if all are 0.
void print_counts(const Context& context, const std::string& noun, std::size_t added, std::size_t unchanged,
                  std::size_t replaced, std::size_t completed = 0) {
    std::string text;
    const auto add = [&](std::size_t count, const std::string& what) {
        if (count > 0)
            text += (text.empty() ? "" : ", ") + std::to_string(count) + " " + what;
    };
    add(added, "added");
    add(replaced, "replaced");
    add(completed, "completed");
    add(unchanged, "already on file");
    if (!text.empty())
        context.out << noun << ": " << text << '\n';
}

/// For the candidate at the keyboard, or the teacher.
std::string next_after_import(const Context& context, const ImportOptions& options, const Store& store) {
    const std::vector<std::string> codes = store.candidates();
    if (store.has_candidate(context.candidate_code()))
        return "today";
    if (!store.classes().empty())
        return "class retries";
    if (codes.empty())
        return "paper list";
    return "today --candidate " + shell_word(options.as.empty() ? codes.front() : options.as);
}

void print(const Context& context, const ImportOptions& options, const Merge& merged) {
    context.out << context.heading(options.dry_run ? "Would import" : "Imported") << '\n';
    print_counts(context, "Papers", merged.papers_added, merged.papers_unchanged, 0, merged.papers_completed);
    print_counts(context, "Candidates", merged.candidates_added, 0, 0);
    print_counts(context, "Sittings", merged.sittings_added, merged.sittings_unchanged,
                 merged.sittings_replaced, merged.sittings_completed);
    print_counts(context, "Re-attempts", merged.reattempts_added, merged.reattempts_unchanged,
                 merged.reattempts_replaced, merged.reattempts_completed);
    print_counts(context, "Scripts still to mark", merged.scripts_added, merged.scripts_unchanged,
                 merged.scripts_replaced, merged.scripts_completed);
    if (merged.scripts_finished > 0)
        context.out << "Scripts marked through: " << merged.scripts_finished << '\n';
    print_counts(context, "Days chosen for retries", merged.kept_days_added, 0, 0);
    print_counts(context, "Availability", merged.availabilities_added, 0, merged.availabilities_replaced);
    print_counts(context, "Extra time", merged.extra_times_added, 0, merged.extra_times_replaced);
    print_counts(context, "Topics relearned", merged.relearned_topics_added, 0, 0);
    print_counts(context, "Ratings of topics", merged.ratings_added, 0, merged.ratings_replaced);
    print_counts(context, "Wishes for the plan", merged.plan_wishes_added, 0, merged.plan_wishes_replaced);
    print_counts(context, "Questions once more", merged.turns_asked_added, 0, 0);
    print_counts(context, "Decisions on the plan", merged.steered_added, 0, merged.steered_replaced);
    print_counts(context, "Exams", merged.exams_added, merged.exams_unchanged, merged.exams_moved);
    if (merged.exams_added + merged.exams_moved > 0)
        context.out << "  Those of no class apply to every candidate in this store.\n";
    print_counts(context, "Awards", merged.awards_added, merged.awards_unchanged, merged.awards_replaced);
    print_counts(context, "Boundary sets", merged.boundary_sets_added, merged.boundary_sets_unchanged,
                 merged.boundary_sets_replaced);
    print_counts(context, "Facts", merged.facts_added, merged.facts_unchanged, merged.facts_replaced,
                 merged.facts_completed);
    print_counts(context, "Sheets of facts", merged.sheets_added, merged.sheets_unchanged,
                 merged.sheets_replaced, merged.sheets_completed);
    print_counts(context, "Figures of closed classes", merged.class_figures_added,
                 merged.class_figures_unchanged, 0);
    print_counts(context, "Classes", merged.classes_added, 0, 0);
    print_counts(context, "Members of classes", merged.members_added, 0, 0);
    print_counts(context, "Absences", merged.absences_added, 0, 0);
    print_counts(context, "Lessons", merged.lessons_added, merged.lessons_unchanged, merged.lessons_replaced,
                 merged.lessons_completed);
    if (merged.papers_kept_unseen > 0)
        context.out << "Papers kept unseen: " << merged.papers_kept_unseen << '\n';
    print_counts(context, "Topics of the lists", merged.topics_listed, 0, 0);
    print_counts(context, "Sets and drawn papers", merged.sets_added, 0, 0);
    print_counts(context, "Pictures", merged.pictures_added, 0, 0);
    for (const DrawnId& drawn : merged.drawn_ids)
        context.out << text_line("The file's " + visible(drawn.in_file) + " is called " +
                                 visible(drawn.here) + " here: " + visible(drawn.in_file) +
                                 " is already another paper.");
    for (const std::string& script : merged.left_out)
        context.out << wrapped("Left out: " + visible(script) + ".", text_width(), 2) << '\n';
    if (options.dry_run)
        context.out << "Nothing was stored. Next: run it again without --dry-run\n";
    else
        context.out << new_numbers_text(merged) << "Next: inkturn "
                    << next_after_import(context, options, context.store_to_read()) << '\n';
}

void run(const Context& context, const ImportOptions& options) {
    const InputFile file(options.file, context);
    const Merge merged = merge_file(context, options, file);
    if (context.json)
        context.out << json_of(merged) << '\n';
    refuse_conflicts(context, file, merged);
    if (!context.json)
        print(context, options, merged);
}

} // namespace

void add_import(Command& line) {
    auto options = std::make_shared<ImportOptions>();
    Command command = line.command("import", "Import a file exported from another store, all or nothing");
    command.argument("FILE", options->file, "A file that 'inkturn export' wrote; - reads standard input")
        .required();
    command.option("--as", options->as, "CODE", "The code to give the file's only candidate here");
    add_accept_option(command, options->accepted);
    command.flag("--replace", options->replace, "Where they differ, use what the file says");
    command.flag("--dry-run", options->dry_run, "Only say what would be imported");
    command.json();
    command.closing("Example:\n  inkturn import desk.json --as K07\n"
                    "What is already on file isn't added twice. If file and store differ, each\n"
                    "conflict is listed and nothing is stored.");
    command.runs(options, run);
}

} // namespace inkturn
