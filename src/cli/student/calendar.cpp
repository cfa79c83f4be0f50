#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/local_time.hpp"
#include "cli/output_file.hpp"
#include "cli/span_options.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/calendar/calendar.hpp"
#include "exchange/calendar/revisions.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/store/calendar.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <array>
#include <iostream>
#include <variant>

namespace inkturn {
namespace {

struct CalendarOptions {
    SpanOptions span;
    bool each = false;
    OutputOptions output;
};

std::size_t count_within(const std::vector<Exam>& exams, DaySpan span) {
    return static_cast<std::size_t>(std::count_if(exams.begin(), exams.end(), [&](const Exam& exam) {
        return span.first <= exam.day && exam.day <= span.last;
    }));
}

/// `3 retries, 1 paper, 2 half-hours of topics, 1 check, 1 sheet of facts`: the items in the span; kinds
/// with none are left out.
std::string counted_items(const Timetable& timetable, DaySpan span) {
    std::array<std::size_t, std::variant_size_v<WorkItem::Work>> counts{};
    for (const WorkItem& item : timetable.items)
        if (item.day && span.first <= *item.day && *item.day <= span.last)
            ++counts[item.work.index()];
    const std::array<std::string, counts.size()> texts{
        counted_retries(counts[0]), count_text(counts[1], "paper"),
        count_text(counts[2], "half-hour") + " of topics", count_text(counts[3], "check"),
        count_text(counts[4], "sheet") + " of facts"};
    std::string all;
    for (std::size_t i = 0; i < counts.size(); ++i)
        if (counts[i] > 0)
            all += (all.empty() ? "" : ", ") + texts[i];
    return all;
}

/// What was written.
struct CalendarWritten {
    DaySpan span;
    EventFor each;
    std::size_t work;  ///< events of work
    std::string items; ///< counted
    std::size_t exams;
    std::size_t lessons;
    std::size_t exams_left_out;
    std::size_t cancelled; ///< events of calendars written before
    bool remembered;
};

std::string work_text(const CalendarWritten& written) {
    if (written.each == EventFor::item || written.work == 0)
        return written.items;
    return count_text(written.work, "day") + " of work (" + written.items + ")";
}

void print_left_out(std::ostream& out, std::size_t exams) {
    if (exams > 0)
        out << "Left out: " << count_text(exams, "exam") << " in " << (exams == 1 ? "a subject" : "subjects")
            << " with no paper sat or planned.\n";
}

/// What was written, and what it cancels.
std::string wrote_text(const CalendarWritten& written) {
    const std::string cancelled = count_text(written.cancelled, "event");
    const std::string days = day_text(written.span);
    std::string what = work_text(written);
    if (written.exams > 0)
        what += (what.empty() ? "" : " and ") + count_text(written.exams, "exam");
    if (written.lessons > 0)
        what += (what.empty() ? "" : " and ") + count_text(written.lessons, "lesson");
    if (what.empty())
        return "Nothing is due (" + days + "); the calendar cancels " + cancelled + " written before.";
    return "Wrote " + count_text(written.work + written.exams + written.lessons, "event") + ", " + days +
           ": " + what + "." +
           (written.cancelled > 0 ? " It also cancels " + cancelled + " written before." : "");
}

void print_not_remembered(std::ostream& out) {
    out << "The store can't be written, so this calendar is not remembered: a later one\n"
           "can't cancel what is in it.\n";
}

void print(std::ostream& out, const CalendarWritten& written, const std::vector<PlanChange>& changed) {
    out << wrapped(wrote_text(written), text_width()) << '\n' << changes_text(changed);
    if (written.work + written.exams + written.lessons > 0)
        out << "Anyone who sees the calendar sees what went wrong: keep it out of shared ones.\n";
    if (!written.remembered)
        print_not_remembered(out);
    print_left_out(out, written.exams_left_out);
    out << "Next: import the file into a calendar of its own\n";
}

/// The file is written, and then what is in it remembered: a file that is refused changes nothing.
void write_calendar(const Context& context, const OutputOptions& output, Store& store,
                    const std::string& code, const std::vector<CalendarEvent>& events) {
    const std::string calendar = to_ical(events, moment_now());
    if (!store.writable()) {
        write_output(context, output, calendar, OwnMark::calendar);
        return;
    }
    Store::Change change(store);
    CalendarOnFile remembered(change);
    remembered.forget_before(code, std::max(context.date_today() - events_remembered, earliest_day));
    remembered.keep(code, events_written(events));
    write_output(context, output, calendar, OwnMark::calendar);
    change.commit();
}

void run(const Context& context, const CalendarOptions& options) {
    const DaySpan span = options.span.read(context);
    const Day today = context.date_today();
    Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const TimetableOnFile timetable = timetable_on_file(store, candidate, today);
    const Timetable& made = timetable.made;

    const EventFor each = options.each ? EventFor::item : EventFor::day;
    std::vector<CalendarEvent> events = events_of_work(candidate, timetable.request, made, span, each);
    const std::vector<CalendarEvent> exams = events_of_exams(candidate, made, span);
    const std::size_t work = events.size();
    events.insert(events.end(), exams.begin(), exams.end());
    const std::vector<CalendarEvent> lessons = events_of_lessons(candidate, span);
    events.insert(events.end(), lessons.begin(), lessons.end());
    events = revised(std::move(events), CalendarOnFile::events(store, candidate.code), span, today);
    const CalendarWritten written{span,
                                  each,
                                  work,
                                  counted_items(made, span),
                                  exams.size(),
                                  lessons.size(),
                                  count_within(candidate.exams, span) - exams.size(),
                                  events.size() - work - exams.size() - lessons.size(),
                                  store.writable()};

    std::ostream& out = options.output.file == "-" ? context.err : context.out;
    if (events.empty()) {
        out << "Nothing is due (" << day_text(span) << "), so no calendar was written.\n";
        print_left_out(out, written.exams_left_out);
        out << context.next("plan");
        return;
    }
    write_calendar(context, options.output, store, candidate.code, events);
    if (options.output.file != "-")
        print(out, written, timetable.changes);
    else if (!written.remembered)
        print_not_remembered(out);
}

} // namespace

void add_calendar(Command& line) {
    auto options = std::make_shared<CalendarOptions>();
    Command calendar = line.command("calendar", "Work and exams in a file for a calendar to import");
    options->span.add_to(calendar);
    calendar.flag("--each", options->each,
                  "One event per retry, paper, piece of a topic, check and sheet of facts (one per day)");
    options->output.add_to(calendar);
    calendar.closing("Example:\n  inkturn calendar -o work.ics --to +28d\n"
                     "Import it again after a change: events already there are updated, and those\n"
                     "that no longer hold are cancelled.");
    calendar.runs(options, run);
}

} // namespace inkturn
