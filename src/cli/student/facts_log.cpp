#include "cli/student/facts.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/facts.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/plan.hpp"
#include "view/page/fact_sheet.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct FactsLogOptions {
    std::string sheet;
    std::vector<std::string> rows;
    std::string date;
    bool full = false;
    bool undo = false;
};

std::vector<int> rows_missed(const FactsLogOptions& options) {
    std::vector<int> rows;
    for (const std::string& row : options.rows)
        rows.push_back(parse_whole_number(row, 1, static_cast<int>(Sheet::max_rows), "row"));
    return rows;
}

/// When the facts missed come back, in words; each subject may have its own window.
std::string comes_back(const Context& context, const Store& store, const CandidateSheet& sheet) {
    const Candidate candidate = store.candidate(sheet.candidate);
    const std::vector<Sheet> sheets = FactsOnFile::sheets(store, sheet.candidate);
    std::vector<Fact> missed;
    for (std::size_t i = 0; i < sheet.facts.size(); ++i)
        if (sheet.sheet.is_missed(sheet.sheet.rows[i].number))
            missed.push_back(sheet.facts[i]);
    std::string text;
    std::size_t without_day = 0;
    const std::vector<DueFact> due = facts_due(missed, sheets, candidate.exams, context.date_today());
    for (const DueFact& one : due)
        without_day += !one.possible_days;
    for (const RecallGroup& group : recall_groups(missed, due))
        text += count_text(group.facts.size(), "fact") + (group.facts.size() == 1 ? " comes" : " come") +
                " back on a sheet" + (group.subject.empty() ? "" : " for " + visible(group.subject)) + ", " +
                day_text(group.possible_days) + ".\n";
    if (without_day > 0)
        text += count_text(without_day, "fact") + (without_day == 1 ? " has" : " have") +
                " no day left before the exam.\n";
    return text;
}

void print(const Context& context, const Store& store, const CandidateSheet& sheet,
           const std::vector<PlanChange>& moved) {
    const std::size_t missed = sheet.sheet.log->missed_rows.size();
    context.out << context.heading("Sheet " + to_text(sheet.sheet.id) + ", logged on " +
                                   day_text(sheet.sheet.log->day))
                << ": " << sheet.facts.size() - missed << " of " << sheet.facts.size() << " recalled\n";
    if (missed > 0)
        context.out << "\nMissed, to learn again:\n"
                    << missed_text(sheet) << '\n'
                    << comes_back(context, store, sheet);
    context.out << changes_text(moved) << context.next("facts list");
}

void record(const Context& context, const FactsLogOptions& options, SheetId id) {
    if (options.rows.empty() != options.full)
        throw UsageError("give the rows missed as ROW..., or use --full if there are none");
    const std::vector<int> missed = rows_missed(options);
    const Day day = context.date_done(options.date);
    Store store = context.store_to_write();
    Store::Change change(store);
    CandidateSheet sheet = sheet_on_file(context, store, id);
    const Candidate days_before = store.candidate(sheet.candidate);
    keep_days_passed(change, sheet.candidate, context.date_today());
    sheet.sheet.log = take_log(sheet.sheet, missed, day, context.date_today());
    FactsOnFile(change).keep_log(id, sheet.sheet.log);
    PlanOnFile(change).take_off(sheet.candidate, sheet.facts);
    const KeptTimetable kept =
        keep_timetable(change, store.candidate(sheet.candidate), context.date_today(), days_before);
    change.commit();
    context.answer([&] { return json_of(sheet, true); }, [&] { print(context, store, sheet, kept.moved); });
}

void undo(const Context& context, SheetId id) {
    Store store = context.store_to_write();
    Store::Change change(store);
    FactsOnFile facts(change);
    CandidateSheet sheet = sheet_on_file(context, store, id);
    keep_days_passed(change, sheet.candidate, context.date_today());
    check_log_can_be_undone(FactsOnFile::sheets(store, sheet.candidate), sheet.sheet);
    sheet.sheet.log.reset();
    facts.keep_log(id, sheet.sheet.log);
    keep_timetable(change, store.candidate(sheet.candidate), context.date_today());
    change.commit();
    context.answer([&] { return json_of(sheet, true); },
                   [&] {
                       context.out << "Undone: sheet " << to_text(id)
                                   << " is no longer logged.\nNext: inkturn facts log " << to_text(id)
                                   << " ROW..., or --full\n";
                   });
}

void run(const Context& context, const FactsLogOptions& options) {
    if (options.undo && (options.full || !options.rows.empty() || !options.date.empty()))
        throw UsageError("--undo takes no rows and no other options");
    const SheetId id = parse_sheet_id(options.sheet);
    if (options.undo)
        undo(context, id);
    else
        record(context, options, id);
}

} // namespace

void add_facts_log(Command& group) {
    auto options = std::make_shared<FactsLogOptions>();
    Command command = group.command("log", "Record which rows of a sheet were missed");
    command.argument("SHEET", options->sheet, "Its number").required();
    command.argument("ROW", options->rows, "The rows missed");
    command.flag("--full", options->full, "All rows were recalled");
    command.option("--date", options->date, "D", "The day it was filled in (today)");
    command.flag("--undo", options->undo, "Undo what was recorded for this sheet");
    command.json();
    command.closing("Examples:\n  inkturn facts log 1 2 5\n  inkturn facts log 2 --full");
    command.runs(options, run);
}

} // namespace inkturn
