#include "cli/student/facts.hpp"

#include "exchange/json/facts.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/store/plan.hpp"
#include "view/page/fact_sheet.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string sheet;
    std::vector<std::string> rows;
    std::string date;
    bool full = false;
    bool undo = false;
    bool json = false;
};

std::vector<int> rows_missed(const Options& options) {
    std::vector<int> rows;
    for (const std::string& row : options.rows)
        rows.push_back(parse_whole_number(row, 1, static_cast<int>(Sheet::most_rows), "row"));
    return rows;
}

/// When the facts missed come back, in words; those of several subjects may have windows of their own.
std::string comes_back(const Context& context, const Store& store, const SheetOfFacts& sheet) {
    const Candidate candidate = store.candidate(sheet.candidate);
    const std::vector<Sheet> sheets = FactsOnFile::sheets(store, sheet.candidate);
    std::vector<Fact> missed;
    for (std::size_t i = 0; i < sheet.facts.size(); ++i)
        if (sheet.sheet.missed(sheet.sheet.rows[i].number))
            missed.push_back(sheet.facts[i]);
    std::string text;
    std::size_t without_day = 0;
    const std::vector<FactDue> due = facts_due(missed, sheets, candidate.exams, context.date_today());
    for (const FactDue& one : due)
        without_day += !one.left;
    for (const RecallGroup& group : recall_groups(missed, due))
        text += counted(group.facts.size(), "fact") + (group.facts.size() == 1 ? " comes" : " come") +
                " back on a sheet" + (group.subject.empty() ? "" : " of " + visible(group.subject)) + ", " +
                spoken(group.left) + ".\n";
    if (without_day > 0)
        text += counted(without_day, "fact") + (without_day == 1 ? " has" : " have") +
                " no day left before the exam.\n";
    return text;
}

void print(const Context& context, const Store& store, const SheetOfFacts& sheet) {
    const std::size_t missed = sheet.sheet.log->missed.size();
    context.out << context.heading("Sheet " + to_text(sheet.sheet.id) + ", logged on " +
                                   spoken(sheet.sheet.log->day))
                << ": " << sheet.facts.size() - missed << " of " << sheet.facts.size() << " recalled\n";
    if (missed > 0)
        context.out << "\nMissed, to learn again:\n"
                    << missed_text(sheet) << '\n'
                    << comes_back(context, store, sheet);
    context.out << "Next: inkturn facts list\n";
}

void record(const Context& context, const Options& options, SheetId id) {
    if (options.rows.empty() != options.full)
        throw UsageError("facts log: name the rows that were missed as ROW... or say --full where none was. "
                         "See 'inkturn facts log --help'");
    const std::vector<int> missed = rows_missed(options);
    const Day day = context.date_of(options.date);
    Store store = context.store_to_write();
    Store::Change change(store);
    SheetOfFacts sheet = sheet_on_file(context, store, id);
    sheet.sheet.log = take_log(sheet.sheet, missed, day, context.date_today());
    FactsOnFile(store).keep_log(id, sheet.sheet.log);
    PlanOnFile(store).take_off(sheet.candidate, sheet.facts);
    change.commit();
    if (options.json)
        context.out << json_of(sheet, true).dump(2) << '\n';
    else
        print(context, store, sheet);
}

void undo(const Context& context, const Options& options, SheetId id) {
    Store store = context.store_to_write();
    Store::Change change(store);
    FactsOnFile facts(store);
    SheetOfFacts sheet = sheet_on_file(context, store, id);
    check_log_can_be_undone(facts.sheets(sheet.candidate), sheet.sheet);
    sheet.sheet.log.reset();
    facts.keep_log(id, sheet.sheet.log);
    change.commit();
    if (options.json)
        context.out << json_of(sheet, true).dump(2) << '\n';
    else
        context.out << "Taken back: sheet " << to_text(id) << " is not logged.\nNext: inkturn facts log "
                    << to_text(id) << " ROW..., or --full\n";
}

void run(const Context& context, const Options& options) {
    if (options.undo && (options.full || !options.rows.empty() || !options.date.empty()))
        throw UsageError("facts log: --undo goes with no row and no other option. See 'inkturn facts log "
                         "--help'");
    const SheetId id = parse_sheet_id(options.sheet);
    if (options.undo)
        undo(context, options, id);
    else
        record(context, options, id);
}

} // namespace

void add_facts_log(CLI::App& group, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* command = group.add_subcommand("log", "Record which rows of a sheet were missed");
    command->add_option("SHEET", options->sheet, "Its number")->required();
    command->add_option("ROW", options->rows, "The rows that were not recalled");
    command->add_flag("--full", options->full, "All were recalled");
    command->add_option("--date", options->date, "The day it was filled in (today)")->type_name("D");
    command->add_flag("--undo", options->undo, "Take back what was recorded of this sheet");
    command->add_flag("--json", options->json, "Print JSON");
    command->footer("Example:\n  inkturn facts log 1 2 5\n  inkturn facts log 2 --full");
    command->callback([options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
