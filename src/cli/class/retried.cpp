#include "cli/class/class.hpp"
#include "cli/class/doubts_listed.hpp"
#include "cli/csv_options.hpp"
#include "cli/student/retried_recorded.hpp"

#include "exchange/class/retried_lines.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <sstream>

namespace inkturn {
namespace {

struct RetriedFileTexts {
    std::string file;
    std::string of_class;
    std::string date;
    std::string date_order;
    std::vector<std::string> accepted;
    CsvOptionTexts csv;
    bool dry_run = false;
};

RetriedOptions options_of(const Context& context, const RetriedFileTexts& texts) {
    RetriedOptions options;
    options.file.today = context.date_today();
    if (!texts.date.empty())
        options.file.date = context.date_passed(texts.date);
    options.file.date_order = date_order_named(texts.date_order);
    options.file.accepted = texts.accepted;
    options.of_class = class_named(texts.of_class);
    return options;
}

/// What a run did.
struct RetriedRun {
    ClassRetried retried;
    NextTurns next{};
    bool of_lines = false; ///< from pages for the phone
};

/// Rows of a table, or lines that were copied back.
RetriedRun read_text(const Store& store, const RetriedFileTexts& texts, const std::string& text,
                     const RetriedOptions& options) {
    if (holds_returned_lines(text))
        return {read_class_retried(store, text, options), {}, true};
    std::istringstream stream(text);
    const auto rows = texts.csv.rows_of(stream);
    RetriedRun run{read_class_retried(store, *rows, options)};
    for (Problem& problem : run.retried.problems.items)
        if (problem.cell.empty())
            problem.cell = rows->row_name(problem.line);
    return run;
}

RetriedRun read_file(const Context& context, const RetriedFileTexts& texts, const InputFile& file) {
    const RetriedOptions options = options_of(context, texts);
    const std::string text = whole_text(file);
    Store store = texts.dry_run ? context.store_to_read() : context.store_to_write();
    Store::Change change(store);
    RetriedRun run = read_text(store, texts, text, options);
    if (texts.dry_run || !run.retried.problems.empty() || !run.retried.doubts.empty())
        return run;
    run.next = record_retried(change, run.retried, options.file.today);
    change.commit();
    return run;
}

std::size_t candidates_in(const ClassRetried& retried) {
    std::size_t count = 0;
    for (std::size_t i = 0; i < retried.added.size(); ++i)
        count += i == 0 || retried.added[i].candidate != retried.added[i - 1].candidate;
    return count;
}

Table not_got_table(const ClassRetried& retried) {
    Table table({{"candidate", Table::Align::left_may_be_cut},
                 {"retry"},
                 {"question"},
                 {"done on"},
                 {"missed", Table::Align::right}});
    for (const RetriedOnce& one : retried.added)
        if (!one.got)
            table.add_row({one.candidate, to_text(one.id), one.id.question, short_day_text(one.reattempt.day),
                           marks_number(one.missed)});
    return table;
}

/// `Rows left out: 'Checked by JT'.`; empty where there are none.
std::string quoted_line(const std::string& title, const std::vector<std::string>& items) {
    std::vector<std::string> quoted;
    for (const std::string& item : items)
        quoted.push_back("'" + visible(item) + "'");
    return quoted.empty() ? "" : text_line(title + ": " + joined(quoted, ", ") + ".");
}

void print(const Context& context, const RetriedFileTexts& texts, const RetriedRun& run) {
    const ClassRetried& retried = run.retried;
    const auto got = static_cast<std::size_t>(std::count_if(retried.added.begin(), retried.added.end(),
                                                            [](const RetriedOnce& one) { return one.got; }));
    context.out << context.heading(texts.dry_run ? "Would record" : "Recorded") << ' '
                << count_text(retried.added.size(), "re-attempt");
    if (!retried.added.empty())
        context.out << " of " << count_text(candidates_in(retried), "candidate") << ": " << got << " got, "
                    << retried.added.size() - got << " not yet";
    context.out << ".\n";
    context.out << repeated_line(retried);
    if (retried.unchanged > 0)
        context.out << count_text(retried.unchanged, "re-attempt") << " already on file, unchanged.\n";
    if (retried.left_open > 0)
        context.out << counted_retries(retried.left_open) << " without marks, left open.\n";
    context.out << quoted_line("Columns ignored", retried.columns_ignored)
                << quoted_line("Rows left out", retried.rows_left_out);
    if (run.of_lines && !retried.added.empty())
        context.out << '\n' << recorded_table(retried, run.next) << '\n';
    else if (got < retried.added.size())
        context.out << "\nNot got, so they come round again:\n\n" << not_got_table(retried) << '\n';
    if (texts.dry_run)
        context.out << "Nothing was stored. Next: run it again without --dry-run\n";
    else
        context.out << "Next: inkturn class returned" << class_words(texts.of_class) << '\n';
}

void run(const Context& context, const RetriedFileTexts& texts) {
    const InputFile file(texts.file, context);
    const RetriedRun run = read_file(context, texts, file);
    if (context.json)
        context.out << json_of(run.retried) << '\n';
    refuse_retried(context, file.name(), run.retried);
    if (!context.json)
        print(context, texts, run);
}

} // namespace

void add_class_retried(Command& group) {
    auto texts = std::make_shared<RetriedFileTexts>();
    Command command = group.command(
        "retried", "Record a class's re-attempts from a table or from phones' lines, all or nothing");
    command
        .argument("FILE", texts->file,
                  "CSV, .xlsx or .ods with a row for each part or each retry, or lines that pages for the "
                  "phone gave; - reads standard input")
        .required();
    add_class_option(command, texts->of_class, "Refuse candidates who are not in this class");
    command.option("--date", texts->date, "D", "The day they were done, if the rows don't say");
    command.option("--date-order", texts->date_order, "dmy|mdy|ymd",
                   "Which number of dates such as 10/11/2026 is the day; it is never guessed");
    add_accept_option(command, texts->accepted);
    command.flag("--dry-run", texts->dry_run, "Only say what would be recorded");
    texts->csv.add_to(command);
    command.json();
    command.closing("Examples:\n  inkturn class retries --class tuesday --sheet -o sheet.csv\n"
                    "  inkturn class retried sheet.csv --class tuesday --date 2026-12-01\n"
                    "Retries whose marks are left blank stay open.");
    command.runs(texts, run);
}

} // namespace inkturn
