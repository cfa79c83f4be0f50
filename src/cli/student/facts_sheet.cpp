#include "cli/output_file.hpp"
#include "cli/student/facts.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/facts.hpp"
#include "inkturn/plan/timetable.hpp"
#include "inkturn/store/change.hpp"
#include "view/page/fact_sheet.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct FactsSheetOptions {
    std::string sheet;
    std::string topic;
    OutputOptions output;
    bool filled = false;

    bool writes_page() const { return !output.file.empty(); }
};

/// What a candidate is to recall today.
struct SheetRequest {
    std::string candidate;
    Sheet sheet;
    std::optional<SheetId> on_file; ///< if the same sheet is on file and not logged
    std::size_t beyond = 0;         ///< also due, on a later sheet
    std::vector<DueFact> due;
    bool has_facts = false; ///< on file
    FactDays fact_days;     ///< planned
    std::string topic;      ///< to write a sheet of where none is due
};

SheetRequest asking(const Context& context, const FactsSheetOptions& options, const Store& store) {
    const Candidate candidate = store.candidate(context.candidate_code());
    const Day today = context.date_today();
    const std::vector<Fact> facts = FactsOnFile::all(store);
    const std::vector<Sheet> sheets = FactsOnFile::sheets(store, candidate.code);
    const std::vector<DueFact> due = facts_due(facts, sheets, candidate.exams, today);
    SheetRequest asking{candidate.code,
                        {},
                        {},
                        0,
                        due,
                        !facts.empty(),
                        fact_days(candidate.planned),
                        topic_to_recall(facts, due, sheets)};
    if (options.topic.empty()) {
        asking.sheet = sheet_of(facts_for_sheet(facts, asking.due, today, asking.fact_days), today);
        asking.beyond = count_due(asking.due, today, asking.fact_days) - asking.sheet.rows.size();
    } else {
        asking.sheet = sheet_of(facts_of_topic(facts, asking.due, sheets, options.topic, today), today);
    }
    if (const Sheet* open = find_open_sheet(sheets, asking.sheet))
        asking.on_file = open->id;
    return asking;
}

void print_nothing_due(const Context& context, const FactsSheetOptions& options, const SheetRequest& asking) {
    context.out << "Nothing to recall for " << visible(asking.candidate) << " today"
                << (options.writes_page() ? ", so no page was written" : "") << ".\n";
    context.out << next_sheet_text(asking.due, asking.fact_days, asking.sheet.day)
                << (asking.topic.empty()
                        ? context.next(asking.has_facts ? "facts list" : "facts add FILE.csv")
                        : text_line("Next, to write one all the same: inkturn facts sheet --topic=" +
                                    shell_word(asking.topic) + context.same_candidate()));
}

void print_next(const Context& context, const Sheet& sheet, bool filled) {
    const std::string id = to_text(sheet.id);
    if (sheet.log) {
        context.out << "\nLogged on " << day_text(sheet.log->day) << ": "
                    << sheet.rows.size() - sheet.log->missed_rows.size() << " of " << sheet.rows.size()
                    << " recalled.\n"
                    << context.next("facts list");
        return;
    }
    if (!filled)
        context.out << "\nNext, to check it: inkturn facts sheet " << id << " --filled"
                    << context.same_candidate() << '\n';
    context.out << (filled ? "\nNext" : "Then") << ", with the rows that were missed: inkturn facts log "
                << id << " ROW..." << context.same_candidate()
                << "\nor, if none was missed: inkturn facts log " << id << " --full"
                << context.same_candidate() << '\n';
}

void write_page(const Context& context, const FactsSheetOptions& options, const CandidateSheet& sheet) {
    if (!options.writes_page())
        return;
    use_paper_size(context);
    write_output(context, options.output, to_html(sheet, options.filled));
}

void print(const Context& context, const CandidateSheet& sheet, bool filled, std::size_t beyond) {
    context.out << context.heading(wrapped(visible(title_of(sheet)), text_width())) << "\n\n"
                << to_text(sheet, filled);
    if (beyond > 0)
        context.out << '\n' << beyond << " more due today: on the next sheet, once this one is logged.\n";
    print_next(context, sheet.sheet, filled);
}

void answer(const Context& context, const FactsSheetOptions& options, const CandidateSheet& sheet,
            std::size_t beyond = 0) {
    if (options.writes_page()) {
        if (options.output.file != "-")
            context.out << "Wrote sheet " << to_text(sheet.sheet.id) << (options.filled ? ", filled" : "")
                        << ": " << count_text(sheet.facts.size(), "fact") << ".\n"
                        << "Next: open the file in a browser and print it on " << sheet_size_text() << '\n';
        return;
    }
    context.answer([&] { return json_of(sheet, options.filled); },
                   [&] { print(context, sheet, options.filled, beyond); });
}

void show(const Context& context, const FactsSheetOptions& options, const CandidateSheet& sheet,
          std::size_t beyond = 0) {
    write_page(context, options, sheet);
    answer(context, options, sheet, beyond);
}

/// Puts a sheet on file, unless its page can't be written.
void make(const Context& context, const FactsSheetOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    FactsOnFile facts(change);
    const SheetRequest request = asking(context, options, store);
    keep_times_by_default(context, change, request.candidate);
    const SheetId id = request.on_file ? *request.on_file : facts.add_sheet(request.candidate, request.sheet);
    const CandidateSheet sheet = FactsOnFile::find_sheet(store, id).value();
    write_page(context, options, sheet);
    change.commit();
    answer(context, options, sheet, request.beyond);
}

void run(const Context& context, const FactsSheetOptions& options) {
    if (!options.sheet.empty() && !options.topic.empty())
        throw UsageError("give either a SHEET on file or --topic");
    if (context.json && options.writes_page())
        throw UsageError("use either --json or --output");
    {
        const Store store = context.store_to_read();
        if (!options.sheet.empty()) {
            show(context, options, sheet_on_file(context, store, parse_sheet_id(options.sheet)));
            return;
        }
        const SheetRequest request = asking(context, options, store);
        if (request.sheet.rows.empty()) {
            context.answer(
                [&] {
                    return json_of(CandidateSheet{request.candidate, request.sheet, {}}, options.filled);
                },
                [&] { print_nothing_due(context, options, request); });
            return;
        }
        if (request.on_file) {
            show(context, options, FactsOnFile::find_sheet(store, *request.on_file).value(), request.beyond);
            return;
        }
    }
    make(context, options);
}

} // namespace

void add_facts_sheet(Command& group) {
    auto options = std::make_shared<FactsSheetOptions>();
    Command command = group.command("sheet", "Make a sheet of the facts due, to fill in from memory");
    command.argument("SHEET", options->sheet, "The number of a sheet on file (what is due today)");
    command.option("--topic", options->topic, "T", "This topic's facts, due or not");
    command.flag("--filled", options->filled, "Show the answers too");
    options->output.add_to(command, "Write a page to print instead; - is standard output");
    command.json();
    command.closing("Examples:\n  inkturn facts sheet\n  inkturn facts sheet 1 --filled -o answers.html");
    command.runs(options, run);
}

} // namespace inkturn
