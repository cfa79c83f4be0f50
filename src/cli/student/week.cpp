#include "cli/commands.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/json.hpp"
#include "inkturn/plan/plan.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string from;
    bool json = false;
};

constexpr Days days_shown{7};

void print_day(const Context& context, const PlannedDay& day, const std::vector<std::string>& exams) {
    if (day.items.empty() && exams.empty())
        return;
    context.out << '\n' << spoken(day.day) << '\n';
    for (const std::string& exam : exams)
        context.out << "  " << wrapped("exam: " + exam, Table::full_width - 2, 4) << '\n';
    for (const WorkItem& item : day.items)
        context.out << "  " << wrapped(visible(long_text(item)), Table::full_width - 2, 4) << '\n';
}

void print(const Context& context, const Candidate& candidate, const Plan& week,
           const std::vector<PlanChange>& changes, DaySpan span) {
    context.out << context.heading("Week for " + visible(candidate.code) + ", " + spoken(span)) << '\n'
                << counted_work(week) << "\n\n"
                << week_table(week)
                << "\nOf each day # is asked, + kept for retries to come, . left.\nTimes are "
                << form_of_lengths << ".\n";
    for (const PlannedDay& day : week.days)
        print_day(context, day, exams_on(candidate.exams, day.day));
    if (week.over > Seconds(0))
        context.out << "\nMore than these days have: " << length_text(week.over)
                    << ". Rest days and sleep come first;\ninkturn plan says what would help.\n";
    context.out << '\n' << changes_text(changes) << "Next: inkturn today\n";
}

void run(const Context& context, const Options& options) {
    const Day today = context.date_today();
    const Day from = context.date_of(options.from);
    const DaySpan span{from, std::min(from + days_shown - Days{1}, latest_day)};
    Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const TimetableOnFile timetable = timetable_on_file(store, candidate, Placing::keep, today);
    const Plan week = plan(timetable.made, candidate.availability, span, today);
    if (options.json)
        context.out
            << json_of(week, timetable.made, remedies(candidate, timetable, today), timetable.changes).dump(2)
            << '\n';
    else
        print(context, candidate, week, timetable.changes, span);
}

} // namespace

void add_week(CLI::App& app, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* week = app.add_subcommand("week", "Seven days of the plan: how full each is, and with what");
    week->add_option("--from", options->from, "First day (today)")->type_name("D");
    week->add_flag("--json", options->json, "Print JSON, as plan does");
    week->footer("Example:\n  inkturn week\n  inkturn week --from +7d");
    week->callback([options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
