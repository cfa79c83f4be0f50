#include "cli/class/class.hpp"
#include "cli/class/doubts_listed.hpp"
#include "cli/csv_options.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/class/retried_import.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

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

/// Puts a candidate's re-attempts on file, from `first` up to the next candidate's, and plans anew.
std::size_t record_candidate(Store::Change& change, const std::vector<RetriedOnce>& added, std::size_t first,
                             Day today) {
    const std::string& code = added[first].candidate;
    keep_days_passed(change, code, today);
    std::size_t next = first;
    for (; next < added.size() && added[next].candidate == code; ++next)
        change.add_reattempt(added[next].id.sitting, added[next].reattempt);
    keep_timetable(change, change.store().candidate(code), today);
    return next;
}

ClassRetried read_file(const Context& context, const RetriedFileTexts& texts, const InputFile& file) {
    const RetriedOptions options = options_of(context, texts);
    Store store = texts.dry_run ? context.store_to_read() : context.store_to_write();
    Store::Change change(store);
    const auto rows = texts.csv.rows_of(file);
    ClassRetried retried = read_class_retried(store, *rows, options);
    for (Problem& problem : retried.problems.items)
        if (problem.cell.empty())
            problem.cell = rows->row_name(problem.line);
    if (texts.dry_run || !retried.problems.empty() || !retried.doubts.empty())
        return retried;
    for (std::size_t next = 0; next < retried.added.size();)
        next = record_candidate(change, retried.added, next, options.file.today);
    change.commit();
    return retried;
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

void print(const Context& context, const RetriedFileTexts& texts, const ClassRetried& retried) {
    const auto got = static_cast<std::size_t>(std::count_if(retried.added.begin(), retried.added.end(),
                                                            [](const RetriedOnce& one) { return one.got; }));
    context.out << context.heading(texts.dry_run ? "Would record" : "Recorded") << ' '
                << count_text(retried.added.size(), "re-attempt");
    if (!retried.added.empty())
        context.out << " of " << count_text(candidates_in(retried), "candidate") << ": " << got << " got, "
                    << retried.added.size() - got << " not yet";
    context.out << ".\n";
    if (retried.unchanged > 0)
        context.out << count_text(retried.unchanged, "re-attempt") << " already on file, unchanged.\n";
    if (retried.left_open > 0)
        context.out << counted_retries(retried.left_open) << " without marks, left open.\n";
    std::vector<std::string> ignored;
    for (const std::string& column : retried.columns_ignored)
        ignored.push_back("'" + visible(column) + "'");
    if (!ignored.empty())
        context.out << text_line("Columns ignored: " + joined(ignored, ", ") + ".");
    if (got < retried.added.size())
        context.out << "\nNot got, so they come round again:\n\n" << not_got_table(retried) << '\n';
    if (texts.dry_run)
        context.out << "Nothing was stored. Next: run it again without --dry-run\n";
    else
        context.out << "Next: inkturn class returned" << class_words(texts.of_class) << '\n';
}

void run(const Context& context, const RetriedFileTexts& texts) {
    const InputFile file(texts.file, context);
    const ClassRetried retried = read_file(context, texts, file);
    if (context.json)
        context.out << json_of(retried) << '\n';
    const std::size_t doubts = retried.doubts.empty() ? 0 : list_doubts(context, file.name(), retried.doubts);
    refuse_problems(context, file.name(), retried.problems);
    if (doubts > 0)
        throw Error(count_text(doubts, "doubt") + " about " + file.name() + "; nothing was stored");
    if (!context.json)
        print(context, texts, retried);
}

} // namespace

void add_class_retried(Command& group) {
    auto texts = std::make_shared<RetriedFileTexts>();
    Command command = group.command(
        "retried", "Record a class's re-attempts from a CSV file or a workbook, all or nothing");
    command
        .argument("FILE", texts->file,
                  "CSV, .xlsx or .ods: a row for each part or each retry; - reads standard input")
        .required();
    add_class_option(command, texts->of_class, "Refuse candidates who are not in this class");
    command.option("--date", texts->date, "D", "The day they were done, if the rows don't say");
    command.option("--date-order", texts->date_order, "dmy|mdy|ymd",
                   "How dates such as 10/11/2026 are meant; they are never guessed");
    add_accept_option(command, texts->accepted);
    command.flag("--dry-run", texts->dry_run, "Only say what would be recorded");
    texts->csv.add_to(command);
    command.json();
    command.closing("Example:\n  inkturn class retries --class tuesday --sheet -o sheet.csv\n"
                    "  inkturn class retried sheet.csv --class tuesday --date 2026-12-01\n"
                    "Retries whose marks are left blank stay open.");
    command.runs(texts, run);
}

} // namespace inkturn
