#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/availability.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

struct DaysOptions {
    std::vector<std::string> entries;
    std::string free;
};

/// `mon=60` or `2026-12-24=90`, split.
struct DayMinutes {
    std::string day;
    Seconds available;
};

DayMinutes parse_day_minutes(const std::string& text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos)
        throw Error("'" + text + "': write DAY=MINUTES, such as mon=60");
    return {text.substr(0, equals), parse_minutes_of_day(std::string_view(text).substr(equals + 1))};
}

std::string minutes_text(Seconds available) {
    return available == Seconds(0) ? "off" : std::to_string(available.count() / 60) + " min";
}

/// Drops dates before today.
Availability from_today(Availability availability, Day today) {
    availability.dates.erase(availability.dates.begin(), availability.dates.lower_bound(today));
    return availability;
}

/// Where the days leave too little rest.
std::string rest_caution(const Availability& availability) {
    constexpr Seconds long_day{8 * 3600};
    const auto is_long = [long_day](Seconds time) { return time > long_day; };
    const bool any_long = std::any_of(availability.week.begin(), availability.week.end(), is_long) ||
                          std::any_of(availability.dates.begin(), availability.dates.end(),
                                      [&](const auto& date) { return is_long(date.second); });
    const bool none_free = availability.free_days == Days(0) &&
                           std::count(availability.week.begin(), availability.week.end(), Seconds(0)) == 0;
    if (!any_long && !none_free)
        return {};
    return wrapped(std::string(any_long ? "More than 8 hours of work in a day" : "") +
                       (any_long && none_free ? ", and no day of the week free" : "") +
                       (!any_long ? "No day of the week is free" : "") +
                       ". Rest days and sleep come before a fuller plan.",
                   text_width()) +
           '\n';
}

void print_availability(const Context& context, const std::string& code, const Availability& availability,
                        const std::vector<PlanChange>& moved) {
    context.out << context.heading("Time available: candidate " + visible(code)) << "\n\n";
    Table table({{"day"}, {"available", Table::Align::right}});
    for (unsigned i = 0; i < availability.week.size(); ++i)
        table.add_row({std::string(weekday_name(i)), minutes_text(availability.week[i])});
    for (const auto& [day, available] : availability.dates)
        table.add_row({day_text(day), minutes_text(available)});
    context.out << table << '\n'
                << wrapped(availability.free_days == Days(0)
                               ? "No day has to stay free (for one a week: inkturn days free 1)."
                               : "Each week, Monday to Sunday, at least " +
                                     (availability.free_days == Days(1)
                                          ? "one day stays free: the one"
                                          : std::to_string(availability.free_days.count()) +
                                                " days stay free: those") +
                                     " with least time, the later if tied.",
                           text_width())
                << '\n'
                << rest_caution(availability) << changes_text(moved) << "Next: inkturn plan\n";
}

/// `mon 60 min -> 20 min` for each day that has other time now, `free days 1 -> 2`.
std::vector<std::string> differences(const Availability& was, const Availability& is) {
    std::vector<std::string> lines;
    const auto add = [&](const std::string& what, const std::string& before, const std::string& after) {
        if (before != after)
            lines.push_back(what + " " + before + " -> " + after);
    };
    for (unsigned i = 0; i < is.week.size(); ++i)
        add(std::string(weekday_name(i)), minutes_text(was.week[i]), minutes_text(is.week[i]));
    std::set<Day> dates;
    for (const Availability* side : {&was, &is})
        for (const auto& [day, time] : side->dates)
            dates.insert(day);
    for (const Day day : dates)
        if (was.dates.count(day) + is.dates.count(day) < 2 || was.dates.at(day) != is.dates.at(day))
            add(date_text(day), minutes_text(was.time_set(day)), minutes_text(is.time_set(day)));
    add("free days", std::to_string(was.free_days.count()), std::to_string(is.free_days.count()));
    return lines;
}

/// The first few.
std::string changed_text(const std::vector<std::string>& lines) {
    constexpr std::size_t max_shown = 7;
    if (lines.empty())
        return "It was so already.\n";
    std::vector<std::string> shown = lines;
    if (lines.size() > max_shown) {
        shown.resize(max_shown);
        shown.push_back(std::to_string(lines.size() - max_shown) + " more");
    }
    return "Changed: " + wrapped_list(shown, text_width() - 20, 2) + ".\n";
}

void answer(const Context& context, const std::string& code, const Availability& availability,
            const std::vector<PlanChange>& moved = {}) {
    const Availability shown = from_today(availability, context.date_today());
    context.answer([&] { return json_of_availability(code, shown); },
                   [&] { print_availability(context, code, shown, moved); });
}

void show_days(const Context& context) {
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    answer(context, candidate.code, candidate.availability);
}

/// Changes the availability; retries on days that are now off get other days.
template <typename Edit>
void change_days(const Context& context, const Edit& edit) {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    Store::Change whole(store);
    keep_days_passed(whole, context.candidate_code(), today);
    Candidate candidate = store.candidate(context.candidate_code());
    const Availability was = candidate.availability;
    edit(candidate.availability);
    whole.set_availability(candidate.code, candidate.availability);
    const KeptTimetable kept = keep_timetable(whole, candidate, today);
    whole.commit();
    if (!context.json)
        context.out << changed_text(differences(was, candidate.availability)) << '\n';
    answer(context, candidate.code, candidate.availability, kept.moved);
}

template <typename Edit>
void change_each_entry(const Context& context, const DaysOptions& options, const Edit& edit) {
    change_days(context, [&](Availability& availability) {
        for (const std::string& entry : options.entries)
            edit(availability, entry, context.date_today());
    });
}

void set_weekdays(const Context& context, const DaysOptions& options) {
    std::set<unsigned> named;
    change_each_entry(context, options, [&](Availability& availability, const std::string& entry, Day) {
        const auto [name, available] = parse_day_minutes(entry);
        const unsigned weekday = parse_weekday(name);
        if (!named.insert(weekday).second)
            throw Error(name + " appears twice: give each weekday once");
        availability.week[weekday] = available;
    });
}

void give_no_time(Availability& availability, const std::string& entry, Day today) {
    const DaySpan span = parse_day_span(entry, today);
    for (Day day = span.first; day <= span.last; day += Days{1})
        availability.dates[day] = Seconds(0);
}

void set_dates(const Context& context, const DaysOptions& options) {
    std::set<Day> named;
    change_each_entry(context, options, [&](Availability& availability, const std::string& entry, Day today) {
        const auto [span_text, available] = parse_day_minutes(entry);
        const DaySpan span = parse_day_span(span_text, today);
        for (Day day = span.first; day <= span.last; day += Days{1}) {
            if (!named.insert(day).second)
                throw Error(iso(day) + " appears twice: give each date once");
            availability.dates[day] = available;
        }
    });
}

/// Makes dates follow their weekday again.
void give_usual_time(Availability& availability, const std::string& entry, Day today) {
    const DaySpan span = parse_day_span(entry, today);
    const auto first = availability.dates.lower_bound(span.first);
    const auto end = availability.dates.upper_bound(span.last);
    if (first == end)
        throw Error("'" + entry + "': no minutes were set for it; it follows its weekday already");
    availability.dates.erase(first, end);
}

/// Retries on a day that is now free get another.
void keep_free(const Context& context, const DaysOptions& options) {
    const Days free(parse_whole_number(options.free, 0, Availability::max_free_days.count(), "free days"));
    change_days(context, [free](Availability& availability) { availability.free_days = free; });
}

} // namespace

void add_days(Command& line) {
    auto options = std::make_shared<DaysOptions>();
    Command days = line.group("days", "Time available for work, by weekday and date");
    days.json();
    days.closing(
        "Example:\n  inkturn days set mon=45 sat=120 sun=0\n  inkturn days off 2026-12-24..2026-12-27");
    days.runs(show_days);

    Command set = days.command("set", "Set the minutes of weekdays, every week");
    set.argument("WEEKDAY=MINUTES", options->entries, "mon to sun, 0 to 1440 minutes").required();
    set.closing("Example:\n  inkturn days set mon=60 sat=120 sun=0");
    set.runs(options, set_weekdays);

    Command off = days.command("off", "Take dates off");
    off.argument("D[..D]", options->entries, "A date, or the first and last of several").required();
    off.closing("Example:\n  inkturn days off 2026-12-24..2026-12-27");
    off.runs([options](const Context& context) { change_each_entry(context, *options, give_no_time); });

    Command on = days.command("on", "Set the minutes of single dates");
    on.argument("D[..D]=MINUTES", options->entries,
                "A date, or the first and last of several; 0 to 1440 minutes")
        .required();
    on.closing("Example:\n  inkturn days on 2026-12-28=90");
    on.runs(options, set_dates);

    Command usual = days.command("usual", "Give dates their weekday's minutes again");
    usual.argument("D[..D]", options->entries, "A date, or the first and last of several").required();
    usual.closing("Example:\n  inkturn days usual 2026-12-24..2026-12-27");
    usual.runs([options](const Context& context) { change_each_entry(context, *options, give_usual_time); });

    Command free = days.command("free", "Set how many days a week stay free at least");
    free.argument("DAYS", options->free, "0 to 6 (1)").required();
    free.closing("Example:\n  inkturn days free 2");
    free.runs(options, keep_free);
}

} // namespace inkturn
