#include "cli/class/class.hpp"
#include "cli/csv_options.hpp"
#include "cli/terminal.hpp"

#include "exchange/csv/class_import.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct ImportClassOptions {
    std::string file;
    std::string paper;
    std::string date;
    std::string subject;
    std::string of_class;
    CsvOptionTexts csv;
    bool dry_run = false;
    bool replace = false;
};

void print(const Context& context, const ImportClassOptions& options, const ClassImport& import) {
    context.out << context.heading(options.dry_run ? "Would import" : "Imported") << ' '
                << count_text(import.sittings_added, "sitting") << " from " << count_text(import.rows, "row")
                << ".\n";
    if (import.sittings_unchanged > 0)
        context.out << count_text(import.sittings_unchanged, "sitting") << " on file already, unchanged.\n";
    if (import.sittings_replaced > 0)
        context.out << count_text(import.sittings_replaced, "sitting") << (options.dry_run ? " would be" : "")
                    << " replaced.\n";
    if (import.absent > 0)
        context.out << count_text(import.absent, "row") << " without marks: absent.\n";
    for (const std::string& paper : import.papers_added)
        context.out << "Paper " << paper << (options.dry_run ? " would be" : "")
                    << " made from the file's maxima.\n";
    if (import.class_added)
        context.out << "Class " << visible(options.of_class) << (options.dry_run ? " would be" : "")
                    << " made.\n";
    if (!options.of_class.empty())
        context.out << count_text(import.members_added, "candidate") << (options.dry_run ? " would be" : "")
                    << " added to class " << visible(options.of_class) << ".\n";
    context.out << counted_retries(import.retries_added) << (options.dry_run ? " would be" : "")
                << " added.\n";
    if (options.dry_run)
        context.out << "Nothing was stored. Next: the same without --dry-run\n";
    else
        context.out << "Next: inkturn class retries\n";
}

ClassImport import_file(const Context& context, const ImportClassOptions& options, const InputFile& file) {
    ClassImportOptions how;
    how.csv.csv = options.csv.read();
    how.csv.subject = options.subject;
    how.csv.today = context.date_today();
    how.replace = options.replace;
    how.of_class = class_named(options.of_class);
    if (!options.paper.empty()) {
        check_paper_id(options.paper);
        how.csv.paper = options.paper;
    }
    if (!options.date.empty())
        how.csv.date = context.date_of(options.date);

    Store store = options.dry_run ? context.store_to_read() : context.store_to_write();
    Store::Change change(store);
    ClassImport import;
    {
        ProgressLine progress(context.err, "inkturn: reading", file.size());
        how.csv.csv.progress = [&](std::size_t bytes) { progress.show(bytes); };
        import = import_class(change, file.stream(), how);
    }
    if (import.problems.empty() && !options.dry_run)
        change.commit();
    return import;
}

void run(const Context& context, const ImportClassOptions& options) {
    const InputFile file(options.file, context.in);
    const ClassImport import = import_file(context, options, file);
    if (context.json)
        context.out << json_of(import) << '\n';
    refuse_problems(context, file.name(), import.problems);
    if (!context.json)
        print(context, options, import);
}

} // namespace

void add_class_import(Command& group) {
    auto options = std::make_shared<ImportClassOptions>();
    Command command = group.command("import", "Take a class's sittings from a CSV, all or nothing");
    command.argument("FILE", options->file, "One row a candidate, or one row a part; - reads standard input")
        .required();
    command.option("--paper", options->paper, "ID", "The paper, where the file has one row a candidate");
    command.option("--date", options->date, "D", "The day it was sat, where the rows don't say");
    command.option("--subject", options->subject, "S", "The subject of papers made from the file's maxima");
    add_class_option(command, options->of_class,
                     "Put its candidates in this class, made where it is not there");
    command.flag("--dry-run", options->dry_run, "Only say what would be done");
    command.flag("--replace", options->replace, "Sittings that differ take the place of those on file");
    options->csv.add_to(command);
    command.json();
    command.closing("Example:\n  inkturn class import marks.csv --paper pure-1 --date 2026-11-20 --dry-run\n"
                    "Write codes instead of names: pupils' marks are personal data.");
    command.runs(options, run);
}

} // namespace inkturn
