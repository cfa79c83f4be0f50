#include "cli/class/class.hpp"
#include "cli/span_options.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/csv/write.hpp"
#include "exchange/json/class.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/plan/plan.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct ClassRetriesOptions {
    std::string of_class;
    SpanOptions span;
    bool csv = false;
};

/// A class's retries over a span of days, and those that have no day.
struct ClassWork {
    std::vector<CandidateWork> candidates; ///< by code, including those with nothing to do
    std::size_t without_day = 0;           ///< retries with no day left before a coming exam
    std::size_t not_placed = 0;            ///< retries that have days left, none with room

    std::size_t retries() const {
        std::size_t count = 0;
        for (const CandidateWork& candidate : candidates)
            count += candidate.within.retries.size();
        return count;
    }
};

ClassWork class_work(const Context& context, const ClassRetriesOptions& options, DaySpan span) {
    ClassWork work;
    const Day today = context.date_today();
    const Store store = context.store_to_read();
    for (std::string& code : codes_of(store, options.of_class)) {
        const Candidate candidate = store.candidate(code);
        std::vector<Retry> retries = retries_on_file(store, candidate, today);
        for (const Retry& retry : retries) {
            if (has_no_day_left(retry, candidate.exams, today))
                ++work.without_day;
            else if (retry.window && !retry.day)
                ++work.not_placed;
        }
        work.candidates.push_back({std::move(code), work_within(std::move(retries), span)});
    }
    return work;
}

void print(const Context& context, const ClassWork& work, DaySpan span) {
    Table table({{"candidate", Table::Align::left_may_be_cut},
                 {"day"},
                 {"retry"},
                 {"paper", Table::Align::left_may_be_cut},
                 {"parts", Table::Align::left_may_be_cut},
                 {"missed", Table::Align::right},
                 {"time", Table::Align::right},
                 {"late", Table::Align::right, true}});
    const Day today = context.date_today();
    Seconds sum{0};
    std::size_t idle = 0;
    for (const CandidateWork& candidate : work.candidates) {
        sum += candidate.within.planned;
        idle += candidate.within.retries.empty();
        for (const Retry& retry : candidate.within.retries)
            table.add_row({candidate.code, day_text(*retry.day), to_text(retry.id), retry.paper->id(),
                           parts_asked(retry), missed_text(retry), length_text(retry.allowance),
                           late_text(retry, today)});
    }
    const std::size_t busy = work.candidates.size() - idle;
    context.out << context.heading("Retries, " + day_text(span)) << ": ";
    if (busy == 0)
        context.out << "none\n";
    else
        context.out << counted_retries(work.retries()) << " for " << count_text(busy, "candidate") << ", "
                    << length_text(sum) << " planned\n\n"
                    << table << '\n';
    if (idle > 0)
        context.out << idle << (idle == 1 ? " candidate has" : " candidates have")
                    << " nothing to retry on these days.\n";
    if (work.without_day > 0)
        context.out << counted_retries(work.without_day) << (work.without_day == 1 ? " has" : " have")
                    << " no day left before the exam.\n";
    if (work.not_placed > 0)
        context.out << counted_retries(work.not_placed) << (work.not_placed == 1 ? " has" : " have")
                    << " no day with room.\n";
    if (busy > 0)
        context.out << "Next: run it again with --csv > letters.csv\n";
    else
        context.out << "Next: inkturn class "
                    << (idle > 0 ? "retries --to +28d" : "import FILE --class CLASS") << '\n';
}

/// `question 7 (7a 7b)`; a question with only one part doesn't list it.
std::string question_text(const Retry& retry) {
    const std::string question = "question " + retry.id.question;
    return retry.paper_question().parts.size() == 1 ? question : question + " (" + parts_asked(retry) + ")";
}

/// One line of a candidate's list, for a letter.
std::string line_of(const Retry& retry) {
    return day_text(*retry.day) + ": " + retry.paper->id() + " " + question_text(retry) + ", " +
           std::to_string(retry.paper_question().marks.count()) + " marks, " + length_text(retry.allowance) +
           ", retry " + to_text(retry.id);
}

/// One row, so one letter, per candidate with retries.
void write_csv(std::ostream& out, const ClassWork& work) {
    CsvWriter csv(out);
    csv.text("candidate").text("retries").text("minutes").text("list").end_row();
    for (const CandidateWork& candidate : work.candidates) {
        if (candidate.within.retries.empty())
            continue;
        std::string list;
        for (const Retry& retry : candidate.within.retries)
            list += (list.empty() ? "" : "; ") + line_of(retry);
        csv.text(candidate.code)
            .number(candidate.within.retries.size())
            .number(static_cast<std::size_t>((candidate.within.planned.count() + 59) / 60))
            .text(list)
            .end_row();
    }
}

void run(const Context& context, const ClassRetriesOptions& options) {
    const DaySpan span = options.span.read(context);
    const ClassWork work = class_work(context, options, span);
    if (options.csv)
        write_csv(context.out, work);
    else
        context.answer(
            [&] { return json_of_class_retries(span, work.candidates, work.without_day, work.not_placed); },
            [&] { print(context, work, span); });
}

} // namespace

void add_class_retries(Command& group) {
    auto options = std::make_shared<ClassRetriesOptions>();
    Command retries = group.command("retries", "Every candidate's retries over a span of days");
    add_class_option(retries, options->of_class, "Only this class (all on file)");
    options->span.add_to(retries);
    const Option csv =
        retries.flag("--csv", options->csv, "Print CSV for a mail merge, one row per candidate");
    retries.json().excludes(csv);
    retries.closing("Example:\n  inkturn class retries --class tuesday --to +14d");
    retries.runs(options, run);
}

} // namespace inkturn
