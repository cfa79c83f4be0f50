#include "cli/class/class.hpp"
#include "cli/class/doubts_listed.hpp"
#include "cli/csv_options.hpp"
#include "cli/subjects.hpp"
#include "cli/terminal.hpp"

#include "exchange/class/class_import.hpp"
#include "exchange/csv/csv.hpp"
#include "inkturn/base/ascii.hpp"
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
    std::string date_order;
    std::vector<std::string> accepted;
    CsvOptionTexts csv;
    bool dry_run = false;
    bool replace = false;
};

std::string paper_understood(const ClassFile::SatPaper& sat) {
    const Paper& paper = *sat.paper;
    return visible(paper.id()) + (sat.on_file ? ", on file: " : ", new: ") +
           count_text(paper.parts().size(), "part") + ", " + counted_marks(paper.marks());
}

std::string days_understood(const std::vector<Day>& days) {
    if (days.size() == 1)
        return day_text(days.front());
    return std::to_string(days.size()) + " days, " + day_text(days.front()) + " to " + day_text(days.back());
}

std::vector<std::string> shown_names(const std::vector<std::string>& names) {
    constexpr std::size_t max_shown = 24;
    std::vector<std::string> shown;
    for (std::size_t i = 0; i < names.size() && i < max_shown; ++i)
        shown.push_back(visible(names[i]));
    if (names.size() > max_shown)
        shown.push_back("and " + std::to_string(names.size() - max_shown) + " more");
    return shown;
}

/// How the file was understood, before anything that was made of it.
void print_understood(const Context& context, const ClassUnderstood& as) {
    constexpr std::size_t indent = 12;
    const auto line = [&](const char* title, const std::vector<std::string>& items) {
        if (!items.empty())
            context.out << fitted(title, indent) << wrapped_list(items, text_width() - indent, indent)
                        << '\n';
    };
    for (const ClassFile::SatPaper& sat : as.papers)
        if (sat.paper)
            line("paper", {paper_understood(sat)});
    if (!as.days.empty())
        line("sat on", {days_understood(as.days)});
    std::vector<std::string> candidates;
    if (as.candidates_new > 0)
        candidates.push_back(std::to_string(as.candidates_new) + " new");
    if (as.candidates_known > 0)
        candidates.push_back(std::to_string(as.candidates_known) + " known");
    line("candidates", candidates);
    line("absent", shown_names(as.absent));
    std::vector<std::string> extra;
    for (const auto& [code, time] : as.extra_times)
        extra.push_back(code + " " + std::to_string(time.percent()) + "%");
    line("extra time", shown_names(extra));
    if (!extra.empty())
        context.out << text_line("Only the centre and the awarding body can grant extra time.");
    std::vector<std::string> ignored;
    for (const std::string& column : as.columns_ignored)
        ignored.push_back("column '" + visible(column) + "'");
    for (const std::string& row : as.rows_left_out)
        ignored.push_back(row.empty() ? "a row without a code" : "row '" + visible(row) + "'");
    if (as.rows_above > 0)
        ignored.push_back(count_text(as.rows_above, "line") + " above the header");
    line("ignored", shown_names(ignored));
}

void print(const Context& context, const ImportClassOptions& options, const ClassImport& import) {
    print_understood(context, import.understood);
    context.out << '\n';
    context.out << context.heading(options.dry_run ? "Would import" : "Imported") << ' '
                << count_text(import.sittings_added, "sitting") << " from " << count_text(import.rows, "row")
                << ".\n";
    if (import.sittings_unchanged > 0)
        context.out << count_text(import.sittings_unchanged, "sitting") << " already on file, unchanged.\n";
    if (import.sittings_replaced > 0)
        context.out << count_text(import.sittings_replaced, "sitting") << (options.dry_run ? " would be" : "")
                    << " replaced.\n";
    for (const std::string& paper : import.papers_added)
        context.out << "Paper " << paper << (options.dry_run ? " would be" : "")
                    << " created from the file's maximum marks.\n";
    if (import.class_added)
        context.out << "Class " << visible(options.of_class) << (options.dry_run ? " would be" : "")
                    << " created.\n";
    if (!options.of_class.empty())
        context.out << count_text(import.members_added, "candidate") << (options.dry_run ? " would be" : "")
                    << " added to class " << visible(options.of_class) << ".\n";
    if (import.absent > 0 && options.of_class.empty())
        context.out << text_line("Who was absent is kept for a class alone: name it with --class.");
    context.out << counted_retries(import.retries_added) << (options.dry_run ? " would be" : "")
                << " added.\n";
    if (options.dry_run)
        context.out << "Nothing was stored. Next: run it again without --dry-run\n";
    else
        context.out << "Next: inkturn class retries" << class_words(options.of_class) << '\n';
}

ClassImport import_file(const Context& context, const ImportClassOptions& options, const InputFile& file) {
    ClassImportOptions how;
    how.file.subject = options.subject;
    how.file.only = options.only;
    how.file.today = context.date_today();
    how.replace = options.replace;
    how.of_class = class_named(options.of_class);
    how.file.accepted = options.accepted;
    how.file.date_order = date_order_named(options.date_order);
    if (!options.paper.empty()) {
        how.file.paper = lower_case(options.paper);
        check_paper_id(*how.file.paper);
    }
    if (!options.date.empty())
        how.file.date = context.date_passed(options.date);

    Store store = options.dry_run ? context.store_to_read() : context.store_to_write();
    how.doubt_of_subject = doubt_of_subject(store, options.subject);
    Store::Change change(store);
    ClassImport import;
    {
        ProgressLine progress(context.err, "inkturn: reading", file.size(), context.quiet);
        const auto rows = options.csv.rows_of(file, [&](std::size_t bytes) { progress.show(bytes); });
        import = import_class(change, *rows, how);
        for (Problem& problem : import.problems.items)
            if (problem.cell.empty())
                problem.cell = rows->row_name(problem.line);
    }
    if (import.problems.empty() && import.doubts.empty() && !options.dry_run)
        change.commit();
    return import;
}

void run(const Context& context, const ImportClassOptions& options) {
    const InputFile file(options.file, context);
    const ClassImport import = import_file(context, options, file);
    if (context.json)
        context.out << json_of(import) << '\n';
    const bool is_refused = !import.problems.empty() || !import.doubts.empty();
    if (!context.json && is_refused)
        print_understood(context, import.understood);
    const std::size_t doubts = import.doubts.empty() ? 0 : list_doubts(context, file.name(), import.doubts);
    refuse_problems(context, file.name(), import.problems);
    if (doubts > 0)
        throw Error(count_text(doubts, "doubt") + " about " + file.name() + "; nothing was stored");
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
    command.option("--date-order", options->date_order, "dmy|mdy|ymd",
                   "Which number of dates such as 10/11/2026 is the day; it is never guessed");
    command.option("--accept", options->accepted, "ANSWER",
                   "Settle a doubt that the import lists; may be repeated");
    command.flag("--dry-run", options->dry_run, "Only say what would be imported");
    command.flag("--replace", options->replace, "Replace sittings on file that differ");
    options->csv.add_to(command);
    command.json();
    command.closing("Example:\n  inkturn class import marks.csv --paper pure-1 --date 2026-11-20 --dry-run\n"
                    "Columns: candidate (or code, student, pupil number ...), a part each (1, 2a,\n"
                    "Q3 (5)) and, where wanted, date, total, only, extra_time. With a row for each part:\n"
                    "candidate, paper, date, part, max, in_time, overtime, corrected, reason.\n"
                    "Cells: - is not attempted, not-set was not asked; a row of absent, abs, a or\n"
                    "n/a is an absence.\n"
                    "Answers for --accept (each doubt names its own): " +
                    joined(words_that_settle(doubts_about_class_file()), " and ") +
                    ".\nUse codes, not names: pupils' marks are personal data.");
    command.runs(options, run);
}

} // namespace inkturn
