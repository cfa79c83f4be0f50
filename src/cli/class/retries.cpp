#include "cli/class/class.hpp"
#include "cli/class/class_work.hpp"
#include "cli/class/retries_csv.hpp"
#include "cli/csv_output.hpp"
#include "cli/span_options.hpp"

#include "exchange/json/class.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct ClassRetriesOptions {
    std::string of_class;
    SpanOptions span;
    std::string by;
    CsvOutput csv;
    bool each = false;
    bool sheet = false;

    bool by_question() const { return by == "question"; }
};

Table retries_table(const ClassWork& work, Day today) {
    Table table({{"candidate", Table::Align::left_may_be_cut},
                 {"day"},
                 {"retry"},
                 {"paper", Table::Align::left_may_be_cut},
                 {"parts", Table::Align::left_may_be_cut},
                 {"missed", Table::Align::right},
                 {"window"},
                 {"late", Table::Align::right, true}});
    for (const CandidateWork& candidate : work.candidates)
        for (const Retry& retry : candidate.within.retries)
            table.add_row({candidate.code, short_day_text(*retry.day), to_text(retry.id), retry.paper->id(),
                           parts_asked(retry), missed_text(retry),
                           short_day_text(DaySpan{retry.window->opens, retry.window->closes}),
                           late_text(retry, today)});
    return table;
}

std::string left_over_line(std::size_t count, const std::string& what) {
    return count == 0 ? "" : counted_retries(count) + (count == 1 ? " has " : " have ") + what + ".\n";
}

/// Where nothing is due: look further ahead, unless that was done.
std::string look_further(const Context& context, const std::string& of_class, const std::string& how,
                         DaySpan span) {
    return span.last < context.date_today() + Days{28}
               ? "retries" + class_words(of_class) + how + " --to +28d"
               : "returned" + class_words(of_class);
}

void print(const Context& context, const std::string& of_class, const ClassWork& work, DaySpan span) {
    const std::size_t busy = work.busy();
    const std::size_t idle = work.candidates.size() - busy;
    context.out << context.heading("Retries, " + day_text(span)) << ": ";
    if (busy == 0)
        context.out << "none\n";
    else
        context.out << counted_retries(work.retries()) << " for " << count_text(busy, "candidate") << ", "
                    << length_text(work.planned()) << " planned\n\n"
                    << retries_table(work, context.date_today()) << '\n';
    if (idle > 0)
        context.out << idle << (idle == 1 ? " candidate has" : " candidates have")
                    << " nothing to retry on these days.\n";
    context.out << left_over_line(work.without_day, "no day left before the exam")
                << left_over_line(work.not_placed, "no day with room");
    const std::string words = class_words(of_class);
    if (busy > 0)
        context.out << "Next: inkturn class letters" << words << " -o letters.html\n";
    else
        context.out << "Next: inkturn class "
                    << (idle > 0 ? look_further(context, of_class, "", span)
                                 : "import FILE" + (of_class.empty() ? " --class CLASS" : words))
                    << '\n';
}

/// `question 8 of pure-1`.
std::string name_of(const DueQuestion& due) {
    return "question " + due.paper_question().label + " of " + due.paper->id();
}

/// What a lesson may begin with.
std::string first_question_line(const std::vector<DueQuestion>& questions, std::size_t candidates) {
    const DueQuestion& first = questions.front();
    const std::size_t due = first.candidates.size();
    if (due == 1)
        return text_line("No question is due for more than one candidate: nothing here calls for a lesson.");
    return text_line("Go through " + name_of(first) + " first: it is due for " + std::to_string(due) +
                     " of " + count_text(candidates, "candidate") +
                     (first.late > 0 ? ", late for " + std::to_string(first.late) : "") + ".");
}

void print(const Context& context, const std::string& of_class, const std::vector<DueQuestion>& questions,
           std::size_t candidates, DaySpan span) {
    context.out << context.heading("Questions to retry, " + day_text(span)) << ": ";
    if (questions.empty()) {
        context.out << "none\nNext: inkturn class " << look_further(context, of_class, " --by question", span)
                    << '\n';
        return;
    }
    Table table({{"paper", Table::Align::left_may_be_cut},
                 {"question"},
                 {"marks", Table::Align::right},
                 {"due", Table::Align::right},
                 {"planned", Table::Align::right},
                 {"late", Table::Align::right},
                 {"mean missed", Table::Align::right},
                 {"first closes"}});
    for (const DueQuestion& due : questions)
        table.add_row(
            {due.paper->id(), due.paper_question().label, marks_number(due.paper_question().marks),
             std::to_string(due.candidates.size()), std::to_string(due.planned), std::to_string(due.late),
             std::to_string(mean_in_tenths(due) / 10) + "." + std::to_string(mean_in_tenths(due) % 10),
             due.closes ? short_day_text(*due.closes) : "-"});
    context.out << questions.size() << '\n'
                << first_question_line(questions, candidates) << '\n'
                << table << '\n'
                << text_line(
                       "due: candidates whose window holds one of these days, or who are late; "
                       "planned: for how many of them it is planned on these days; mean missed: marks, "
                       "over those for whom it is due; first closes: the first window still open to close.")
                << "Next: inkturn class retries" << class_words(of_class) << '\n';
}

void report_written(const Context& context, const ClassRetriesOptions& options, std::size_t rows) {
    if (options.csv.to_file())
        context.out << "Wrote " << count_text(rows, "row")
                    << ". The file holds pupils' marks: only you can read it.\n"
                    << "Next: inkturn class letters" << class_words(options.of_class) << " -o letters.html\n";
}

void report_sheet(const Context& context, const ClassRetriesOptions& options, const ClassWork& work,
                  DaySpan span) {
    if (!options.csv.to_file())
        return;
    if (work.retries() == 0)
        context.out << "Nothing is due (" << day_text(span)
                    << "): the sheet has no rows.\nNext: inkturn class "
                    << look_further(context, options.of_class, "", span) << '\n';
    else
        context.out << "Wrote " << counted_retries(work.retries()) << " for "
                    << count_text(work.busy(), "candidate") << ", to fill in.\nNext: inkturn class retried "
                    << shell_argument(options.csv.output.file) << class_words(options.of_class) << '\n';
}

void run_by_question(const Context& context, const ClassRetriesOptions& options, const Store& store,
                     DaySpan span) {
    const auto questions = due_questions(class_retries(context, store, options.of_class), span);
    const std::size_t candidates = codes_of(store, options.of_class).size();
    if (options.csv.csv) {
        options.csv.write(context, questions_csv(questions));
        report_written(context, options, questions.size());
        return;
    }
    context.answer([&] { return json_of_class_questions(span, candidates, questions); },
                   [&] { print(context, options.of_class, questions, candidates, span); });
}

void run_by_candidate(const Context& context, const ClassRetriesOptions& options, const Store& store,
                      DaySpan span) {
    const ClassWork work = class_work(context, store, options.of_class, span);
    if (options.sheet) {
        options.csv.write(context, sheet_csv(work));
        report_sheet(context, options, work, span);
        return;
    }
    if (options.csv.csv) {
        const Day today = context.date_today();
        options.csv.write(context, options.each ? retries_csv(work, today) : letters_csv(work, today));
        report_written(context, options, options.each ? work.retries() : work.busy());
        return;
    }
    context.answer(
        [&] { return json_of_class_retries(span, work.candidates, work.without_day, work.not_placed); },
        [&] { print(context, options.of_class, work, span); });
}

void check(const ClassRetriesOptions& options) {
    if (!options.by.empty() && options.by != "candidate" && options.by != "question")
        throw Error("--by '" + options.by + "': use candidate or question");
    if (options.each && options.by_question())
        throw UsageError("--each gives each retry a row: leave --by question out");
    if (options.sheet && options.by_question())
        throw UsageError("--sheet gives each part of each retry a row: leave --by question out");
    if (options.sheet && options.csv.output.file.empty())
        throw UsageError("--sheet needs -o FILE");
    if (!options.csv.output.file.empty() && !options.csv.csv && !options.sheet)
        throw UsageError("-o needs --csv or --sheet");
}

void run(const Context& context, const ClassRetriesOptions& options) {
    check(options);
    const DaySpan span = options.span.read(context);
    const Store store = context.store_to_read();
    if (options.by_question())
        run_by_question(context, options, store, span);
    else
        run_by_candidate(context, options, store, span);
}

} // namespace

void add_class_retries(Command& group) {
    auto options = std::make_shared<ClassRetriesOptions>();
    Command retries = group.command("retries", "Every candidate's retries, or the questions that are due");
    add_class_looked_at(retries, options->of_class, "Only this class (all on file)");
    options->span.add_to(retries);
    retries.option("--by", options->by, "candidate|question",
                   "A row for each retry, or each question with how many it is due for (candidate)");
    const Option csv = options->csv.add_to(retries, "CSV for a mail merge: one row per candidate");
    retries.flag("--each", options->each, "With --csv: one row per retry").needs(csv);
    const Option sheet =
        retries.flag("--sheet", options->sheet, "CSV to fill in marks, for 'class retried' to read")
            .excludes(csv);
    retries.json().excludes(csv).excludes(sheet);
    retries.closing("Examples:\n  inkturn class retries --class tuesday --to +14d\n"
                    "  inkturn class retries --class tuesday --by question\n"
                    "  inkturn class retries --class tuesday --csv --each -o retries.csv\n"
                    "  inkturn class retries --class tuesday --sheet -o sheet.csv");
    retries.runs(options, run);
}

} // namespace inkturn
