#include "cli/commands.hpp"
#include "cli/local_time.hpp"
#include "cli/output_file.hpp"
#include "cli/span_options.hpp"

#include "exchange/calendar.hpp"
#include "sheet/retries.hpp"
#include "sheet/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    SpanOptions span;
    bool each = false;
    OutputOptions output;
};

std::size_t count_within(const std::vector<Exam>& exams, DaySpan span) {
    return static_cast<std::size_t>(std::count_if(exams.begin(), exams.end(), [&](const Exam& exam) {
        return span.first <= exam.day && exam.day <= span.last;
    }));
}

void print_left_out(std::ostream& out, std::size_t exams) {
    if (exams > 0)
        out << "Left out: " << counted(exams, "exam") << " in " << (exams == 1 ? "a subject" : "subjects")
            << " of which no paper was sat.\n";
}

void print(std::ostream& out, const Options& options, DaySpan span, std::size_t work, std::size_t exams) {
    out << "Wrote " << counted(work + exams, "event") << ", " << spoken(span) << ": "
        << (options.each ? counted_retries(work) : counted(work, "day") + " of work") << " and "
        << counted(exams, "exam")
        << ".\nWho sees the calendar sees which marks went: keep it out of shared ones.\n";
}

void run(const Context& context, const Options& options) {
    const DaySpan span = options.span.read(context);
    Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const std::vector<Retry> retries = open_retries(candidate, context.date_today());
    keep_days(store, retries);

    std::vector<CalendarEvent> events =
        events_of_retries(candidate, retries, span, options.each ? EventFor::retry : EventFor::day);
    const std::size_t work = events.size();
    const std::vector<CalendarEvent> exams = events_of_exams(candidate, span);
    const std::size_t left_out = count_within(candidate.exams, span) - exams.size();
    events.insert(events.end(), exams.begin(), exams.end());

    std::ostream& out = options.output.file == "-" ? context.err : context.out;
    if (events.empty()) {
        out << "Nothing is due, " << spoken(span) << ": no calendar was written.\n";
        print_left_out(out, left_out);
        out << "Next: inkturn plan\n";
        return;
    }
    write_output(context, options.output, to_ical(events, moment_now()));
    if (options.output.file == "-")
        return;
    print(out, options, span, work, exams.size());
    print_left_out(out, left_out);
    out << "Next: import the file into a calendar of its own\n";
}

} // namespace

void add_calendar(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* calendar =
        app.add_subcommand("calendar", "The retries and exams of these days, for a calendar to import");
    options->span.add_to(*calendar);
    calendar->add_flag("--each", options->each, "An event for each retry (for each day's work)");
    options->output.add_to(*calendar);
    calendar->footer("Example:\n  inkturn calendar -o retries.ics --to +28d\n"
                     "Import it again after a change: events that are there already are updated.");
    calendar->callback(
        [options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
