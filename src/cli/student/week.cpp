#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/plan.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/retry/availability.hpp"
#include "view/text/checks.hpp"
#include "view/text/ratings.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct WeekOptions {
    std::string from;
};

constexpr Days week_length{7};

void print_day(const Context& context, const PlannedDay& day, const std::vector<std::string>& fixed) {
    if (day.items.empty() && fixed.empty())
        return;
    context.out << '\n' << day_text(day.day) << '\n';
    for (const std::string& one : fixed)
        context.out << "  " << wrapped(one, text_width() - 2, 4) << '\n';
    for (const WorkItem& item : with_halves_joined(day.items))
        context.out << "  " << wrapped(visible(long_text(item)), text_width() - 2, 4) << '\n';
}

void print(const Context& context, const Candidate& candidate, const Plan& week,
           const TimetableOnFile& timetable, DaySpan span) {
    context.out << context.heading("Week for " + visible(candidate.code) + ", " + day_text(span)) << '\n';
    if (timetable.made.fit != PlanFit::fits)
        context.out << verdict_text(timetable.made) << "inkturn plan" << context.same_candidate()
                    << " says what would help.\n";
    const bool any_done = std::any_of(week.days.begin(), week.days.end(),
                                      [](const PlannedDay& day) { return day.done > Seconds(0); });
    const bool any = std::any_of(week.days.begin(), week.days.end(),
                                 [](const PlannedDay& day) { return !day.items.empty(); });
    context.out << (any || timetable.made.items.empty() ? counted_work(week) : "Nothing on these days")
                << "\n\n"
                << week_table(week) << "\nIn each day, "
                << (any_done ? "= is done, # planned" : "# is planned")
                << ", + reserved for expected retries, . free.\nTimes are " << form_of_lengths << ".\n";
    for (const PlannedDay& day : week.days)
        print_day(context, day, fixed_on(day, candidate.exams));
    context.out << '\n'
                << goes_by_text(timetable.made)
                << checks_text(week, timetable.papers, context.same_candidate())
                << changes_text(timetable.changes) << context.next("today");
}

/// The day typed; else today, or the day on which the week that today is in starts, by the file of defaults.
Day first_day(const Context& context, const WeekOptions& options) {
    const Day today = context.date_today();
    if (!options.from.empty())
        return context.date_of(options.from);
    const auto starts = context.defaults->find(Default::week_starts);
    return starts ? today - Days{(weekday_index(today) + 7 - parse_weekday(*starts)) % 7} : today;
}

void run(const Context& context, const WeekOptions& options) {
    const Day today = context.date_today();
    const Day from = first_day(context, options);
    const DaySpan span{from, std::min(from + week_length - Days{1}, latest_day)};
    Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const TimetableOnFile timetable = whole_timetable(store, candidate, today);
    const Plan week = plan(timetable.made, candidate, span);
    context.answer(
        [&] {
            return json_of(week, timetable.made, remedies(candidate, timetable, today), timetable.changes,
                           {candidate.wishes.retries,
                            choices(timetable.from, timetable.request, timetable.made, today)});
        },
        [&] { print(context, candidate, week, timetable, span); });
}

} // namespace

void add_week(Command& line) {
    auto options = std::make_shared<WeekOptions>();
    Command week = line.command("week", "Seven days of the plan: how full each one is, and its work");
    week.option("--from", options->from, "D", "First day (today, or as the file of defaults says)");
    week.json("Print JSON, as plan does");
    week.closing("Examples:\n  inkturn week\n  inkturn week --from +7d");
    week.runs(options, run);
}

} // namespace inkturn
