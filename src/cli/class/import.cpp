#include "cli/class/class.hpp"
#include "cli/csv_options.hpp"
#include "cli/subjects.hpp"
#include "cli/terminal.hpp"

#include "exchange/class/class_import.hpp"
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
    std::string only;
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
        context.out << count_text(import.sittings_unchanged, "sitting") << " already on file, unchanged.\n";
    if (import.sittings_replaced > 0)
        context.out << count_text(import.sittings_replaced, "sitting") << (options.dry_run ? " would be" : "")
                    << " replaced.\n";
    if (import.absent > 0)
        context.out << count_text(import.absent, "row") << " without marks: absent.\n";
    for (const std::string& paper : import.papers_added)
        context.out << "Paper " << paper << (options.dry_run ? " would be" : "")
                    << " created from the file's maximum marks.\n";
    if (import.class_added)
        context.out << "Class " << visible(options.of_class) << (options.dry_run ? " would be" : "")
                    << " created.\n";
    if (!options.of_class.empty())
        context.out << count_text(import.members_added, "candidate") << (options.dry_run ? " would be" : "")
                    << " added to class " << visible(options.of_class) << ".\n";
    context.out << counted_retries(import.retries_added) << (options.dry_run ? " would be" : "")
                << " added.\n";
    if (options.dry_run)
        context.out << "Nothing was stored. Next: run it again without --dry-run\n";
    else
        context.out << "Next: inkturn class retries\n";
}

ClassImport import_file(const Context& context, const ImportClassOptions& options, const InputFile& file) {
    ClassImportOptions how;
    how.file.subject = options.subject;
    how.file.only = options.only;
    how.file.today = context.date_today();
    how.replace = options.replace;
    how.of_class = class_named(options.of_class);
    if (!options.paper.empty()) {
        check_paper_id(options.paper);
        how.file.paper = options.paper;
    }
    if (!options.date.empty())
        how.file.date = context.date_passed(options.date);

    Store store = options.dry_run ? context.store_to_read() : context.store_to_write();
    question_new_subject(context, store, options.subject);
    Store::Change change(store);
    ClassImport import;
    {
        ProgressLine progress(context.err, "inkturn: reading", file.size());
        const auto rows = options.csv.rows_of(file, [&](std::size_t bytes) { progress.show(bytes); });
        import = import_class(change, *rows, how);
        for (Problem& problem : import.problems.items)
            if (problem.cell.empty())
                problem.cell = rows->row_name(problem.line);
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
    Command command =
        group.command("import", "Import a class's sittings from a CSV file or a workbook, all or nothing");
    command
        .argument("FILE", options->file,
                  "CSV, .xlsx or .ods: one row per candidate, or one row per part; - reads standard input")
        .required();
    command.option("--paper", options->paper, "ID", "The paper, if the file has one row per candidate");
    command.option("--date", options->date, "D", "The day it was sat, if the rows don't say");
    command.option("--subject", options->subject, "S",
                   "The subject of papers created from the file's maximum marks");
    command.option("--only", options->only, "1-3,7",
                   "Only these parts and questions were set: others need no column (all)");
    add_class_option(command, options->of_class,
                     "Add its candidates to this class, created if it doesn't exist");
    command.flag("--dry-run", options->dry_run, "Only say what would be imported");
    command.flag("--replace", options->replace, "Replace sittings on file that differ");
    options->csv.add_to(command);
    command.json();
    command.closing("Example:\n  inkturn class import marks.csv --paper pure-1 --date 2026-11-20 --dry-run\n"
                    "Use codes, not names: pupils' marks are personal data.");
    command.runs(options, run);
}

} // namespace inkturn
