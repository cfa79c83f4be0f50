#include "cli/class/class.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/weekday_time.hpp"

#include "exchange/json/availability.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/retries.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <array>
#include <iostream>
#include <iterator>
#include <map>
#include <set>

namespace inkturn {
namespace {

struct DaysOptions {
    std::vector<std::string> entries;
    std::string free;
    std::string of_class;
};

std::string minutes_text(Seconds available) {
    return available == Seconds(0) ? "off" : std::to_string(available.count() / 60) + " min";
}

std::string minutes_text(const std::optional<Seconds>& available) {
    return available ? minutes_text(*available) : "not set";
}

/// Drops dates before today.
template <typename Times>
Times from_today(Times times, Day today) {
    times.dates.erase(times.dates.begin(), times.dates.lower_bound(today));
    return times;
}

/// The times of the classes that a candidate is in, of those that have set some.
std::vector<TimesOfClass> times_of_classes(const Store& store, const std::string& code) {
    std::vector<TimesOfClass> all;
    for (std::string& name : store.classes_of(code))
        if (StatedTimes times = store.class_times(name); !times.is_empty())
            all.push_back({std::move(name), std::move(times)});
    return all;
}

/// `class 12A`: those whose time counts where the candidate has set none; empty if no class says one.
template <typename TimeIn>
std::string said_by(const std::vector<TimesOfClass>& classes, Seconds counts, const TimeIn& time_in) {
    std::vector<std::string> names;
    for (const auto& [name, times] : classes)
        if (time_in(times) == counts)
            names.push_back(name);
    return names.empty() ? "" : "class " + joined(names, ", ");
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

/// 0 to 6 for Monday to Sunday, from the day on which a week starts by the file of defaults.
std::array<unsigned, 7> weekdays_from_start(const Context& context) {
    const auto starts = context.defaults->find(Default::week_starts);
    std::array<unsigned, 7> days{};
    for (unsigned i = 0; i < days.size(); ++i)
        days[i] = ((starts ? parse_weekday(*starts) : 0) + i) % 7;
    return days;
}

std::optional<Seconds> time_of_date(const StatedTimes& times, Day day) {
    const auto found = times.dates.find(day);
    return found == times.dates.end() ? std::nullopt : std::optional(found->second);
}

/// Adds the dates: those that follow each other and are alike are one line.
template <typename SetFor>
void add_dates(Table& table, const std::map<Day, Seconds>& dates, const SetFor& set_for) {
    for (auto first = dates.begin(); first != dates.end();) {
        const std::string whose = set_for(first->first, first->second);
        auto last = first;
        auto next = std::next(first);
        for (; next != dates.end() && next->first == last->first + Days{1} && next->second == first->second &&
               set_for(next->first, next->second) == whose;
             ++next)
            last = next;
        table.add_row({first == last ? day_text(first->first) : day_text(DaySpan{first->first, last->first}),
                       minutes_text(first->second), whose});
        first = next;
    }
}

Table times_table(const Context& context, const Availability& availability, const StatedTimes& own,
                  const std::vector<TimesOfClass>& classes) {
    Table table(
        {{"day"}, {"available", Table::Align::right}, {"set for", Table::Align::left_may_be_cut, true}});
    for (const unsigned i : weekdays_from_start(context))
        table.add_row({std::string(weekday_name(i)), minutes_text(availability.week[i]),
                       own.week[i] ? ""
                                   : said_by(classes, availability.week[i],
                                             [i](const StatedTimes& times) { return times.week[i]; })});
    add_dates(table, availability.dates, [&](Day day, Seconds available) {
        return own.dates.count(day) > 0 ? std::string()
                                        : said_by(classes, available, [day](const StatedTimes& times) {
                                              return time_of_date(times, day);
                                          });
    });
    return table;
}

std::string free_days_line(const Availability& availability) {
    return text_line(
        availability.free_days == Days(0)
            ? "No day has to stay free (for one a week: inkturn days free 1)."
            : "Each week, Monday to Sunday, at least " +
                  (availability.free_days == Days(1)
                       ? "one day stays free: the one"
                       : std::to_string(availability.free_days.count()) + " days stay free: those") +
                  " with least time, the later if tied.");
}

void print_availability(const Context& context, const Candidate& candidate, const Availability& availability,
                        const std::vector<TimesOfClass>& classes, const std::vector<PlanChange>& moved) {
    context.out << context.heading("Time available: candidate " + visible(candidate.code)) << "\n\n"
                << times_table(context, availability, candidate.own_times, classes) << '\n'
                << free_days_line(availability);
    if (!classes.empty())
        context.out << text_line(
            "The times of a class count where the candidate has set none" +
            std::string(classes.size() > 1 ? "; of several classes the least time counts." : "."));
    context.out << rest_caution(availability) << changes_text(moved) << context.next("plan");
}

void print_class_times(const Context& context, const std::string& name, const StatedTimes& times,
                       std::size_t members) {
    context.out << context.heading("Time available: class " + visible(name)) << "\n\n";
    Table table({{"day"}, {"available", Table::Align::right}, {"", Table::Align::left, true}});
    for (const unsigned i : weekdays_from_start(context))
        table.add_row({std::string(weekday_name(i)), minutes_text(times.week[i]), ""});
    add_dates(table, times.dates, [](Day, Seconds) { return std::string(); });
    table.add_row({"free days", times.free_days ? std::to_string(times.free_days->count()) : "not set", ""});
    context.out << table << '\n'
                << text_line("These count for the " + count_text(members, "member") +
                             " of the class wherever a member has set no time of their own, and for nobody "
                             "else. Not set: an hour from Monday to Saturday, one day a week free.")
                << rest_caution(availability_of({}, {times})) << "Next: inkturn class retries --class "
                << shell_word(name) << '\n';
}

/// What is said of a date that has no time of its own.
std::string date_text_in(const Availability& availability, Day day) {
    return minutes_text(availability.time_set(day));
}
std::string date_text_in(const StatedTimes& times, Day day) {
    return minutes_text(time_of_date(times, day));
}

std::string free_text(Days free) {
    return std::to_string(free.count());
}
std::string free_text(const std::optional<Days>& free) {
    return free ? free_text(*free) : "not set";
}

/// `mon 60 min -> 20 min` for each day that has other time now, `free days 1 -> 2`.
template <typename Times>
std::vector<std::string> differences(const Times& was, const Times& is) {
    std::vector<std::string> lines;
    const auto add = [&](const std::string& what, const std::string& before, const std::string& after) {
        if (before != after)
            lines.push_back(what + " " + before + " -> " + after);
    };
    for (unsigned i = 0; i < is.week.size(); ++i)
        add(std::string(weekday_name(i)), minutes_text(was.week[i]), minutes_text(is.week[i]));
    std::set<Day> dates;
    for (const Times* side : {&was, &is})
        for (const auto& [day, time] : side->dates)
            dates.insert(day);
    for (const Day day : dates)
        if (was.dates.count(day) + is.dates.count(day) < 2 || was.dates.at(day) != is.dates.at(day))
            add(date_text(day), date_text_in(was, day), date_text_in(is, day));
    add("free days", free_text(was.free_days), free_text(is.free_days));
    return lines;
}

/// The first few.
std::string changed_text(const std::vector<std::string>& lines, const std::string& was_so = "so already") {
    constexpr std::size_t max_shown = 7;
    if (lines.empty())
        return "It was " + was_so + ".\n";
    std::vector<std::string> shown = lines;
    if (lines.size() > max_shown) {
        shown.resize(max_shown);
        shown.push_back(std::to_string(lines.size() - max_shown) + " more");
    }
    return "Changed: " + wrapped_list(shown, text_width() - 20, 2) + ".\n";
}

void answer(const Context& context, const Store& store, const Candidate& candidate,
            const std::vector<PlanChange>& moved = {}) {
    const Availability shown = from_today(candidate.availability, context.date_today());
    const std::vector<TimesOfClass> classes = times_of_classes(store, candidate.code);
    context.answer([&] { return json_of_availability(candidate, shown, classes); },
                   [&] { print_availability(context, candidate, shown, classes, moved); });
}

void answer_class(const Context& context, const Store& store, const std::string& name) {
    const TimesOfClass shown{name, from_today(store.class_times(name), context.date_today())};
    context.answer([&] { return json_of(shown); },
                   [&] { print_class_times(context, name, shown.times, store.members(name).size()); });
}

void show_days(const Context& context, const DaysOptions& options) {
    const Store store = context.store_to_read();
    if (options.of_class.empty())
        answer(context, store, context.candidate_on_file(store));
    else
        answer_class(context, store, options.of_class);
}

/// Changes a candidate's own times; retries on days that are now off get other days.
template <typename Edit>
void change_own_days(const Context& context, const Edit& edit, const std::string& was_so = "so already") {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    Store::Change whole(store);
    keep_times_by_default(context, whole, context.candidate_code());
    const Candidate days_before = store.candidate(context.candidate_code());
    keep_days_passed(whole, days_before.code, today);
    const Candidate before = store.candidate(context.candidate_code());
    StatedTimes times = before.own_times;
    edit(times);
    whole.set_times(before.code, times);
    const Candidate candidate = store.candidate(before.code);
    const KeptTimetable kept = keep_timetable(whole, candidate, today, days_before);
    whole.commit();
    if (!context.json)
        context.out << changed_text(differences(before.availability, candidate.availability), was_so) << '\n';
    answer(context, store, candidate, kept.moved);
}

/// Changes the times of a class; what its members' plans make of that is stored with each one's next change.
template <typename Edit>
void change_class_days(const Context& context, const std::string& name, const Edit& edit) {
    Store store = context.store_to_write();
    Store::Change whole(store);
    const StatedTimes was = store.class_times(name);
    keep_days_passed(whole, store.members(name), context.date_today());
    StatedTimes times = was;
    edit(times);
    whole.set_class_times(name, times);
    whole.commit();
    if (!context.json)
        context.out << changed_text(differences(was, times)) << '\n';
    answer_class(context, store, name);
}

template <typename Edit>
void change_days(const Context& context, const DaysOptions& options, const Edit& edit,
                 const std::string& was_so = "so already") {
    if (options.of_class.empty())
        change_own_days(context, edit, was_so);
    else
        change_class_days(context, options.of_class, edit);
}

template <typename Edit>
void change_each_entry(const Context& context, const DaysOptions& options, const Edit& edit) {
    change_days(context, options, [&](StatedTimes& times) {
        for (const std::string& entry : options.entries)
            edit(times, entry, context.date_today());
    });
}

void set_weekdays(const Context& context, const DaysOptions& options) {
    for (const std::string& entry : options.entries)
        if (!entry.empty() && is_digit(entry.front()))
            throw Error(std::string("'")
                            .append(entry)
                            .append("' names a date, not a weekday: type 'inkturn days on ")
                            .append(entry)
                            .append("'"));
    const std::vector<WeekdayTime> week = parse_week(options.entries);
    change_days(context, options, [&week](StatedTimes& times) {
        for (const WeekdayTime& set : week)
            times.week[set.weekday] = set.available;
    });
}

void give_no_time(StatedTimes& times, const std::string& entry, Day today) {
    const DaySpan span = parse_span_ahead(entry, today);
    for (Day day = span.first; day <= span.last; day += Days{1})
        times.dates[day] = Seconds(0);
}

void set_dates(const Context& context, const DaysOptions& options) {
    std::set<Day> named;
    change_each_entry(context, options, [&](StatedTimes& times, const std::string& entry, Day today) {
        const auto [span_text, available] = parse_day_minutes(entry);
        const DaySpan span = parse_span_ahead(span_text, today);
        for (Day day = span.first; day <= span.last; day += Days{1}) {
            if (!named.insert(day).second)
                throw Error(iso(day) + " appears twice: give each date once");
            times.dates[day] = available;
        }
    });
}

/// Makes dates follow their weekday again.
void give_usual_time(StatedTimes& times, const std::string& entry, Day today) {
    const DaySpan span = parse_day_span(entry, today);
    const auto first = times.dates.lower_bound(span.first);
    const auto end = times.dates.upper_bound(span.last);
    if (first == end)
        throw Error("'" + entry + "': no minutes were set for it; it follows its weekday already");
    times.dates.erase(first, end);
}

[[noreturn]] void refuse_date_of_class(const std::string& entry, const std::string& code,
                                       const std::string& of_class,
                                       const std::pair<const Day, Seconds>& set) {
    std::string why = "'" + entry + "': candidate ";
    why += code + " has set no time of their own there; class ";
    why += of_class + " has set " + iso(set.first);
    why += " to " + minutes_text(set.second) + ". 'inkturn days on " + iso(set.first);
    throw Error(why + "=MINUTES' sets their own, and 'inkturn days usual' with --class changes the class's");
}

/// Throws Error where a date has the time of a class and none of the candidate's own to take away.
void check_is_own(const Context& context, const DaysOptions& options) {
    const Store store = context.store_to_read();
    const std::string code = context.candidate_code();
    const Candidate candidate = store.candidate(code);
    for (const std::string& entry : options.entries) {
        const DaySpan span = parse_day_span(entry, context.date_today());
        const auto within = [&](const StatedTimes& times) {
            const auto first = times.dates.lower_bound(span.first);
            return first != times.dates.end() && first->first <= span.last ? first : times.dates.end();
        };
        if (within(candidate.own_times) != candidate.own_times.dates.end())
            continue;
        for (const auto& [name, times] : times_of_classes(store, code))
            if (const auto first = within(times); first != times.dates.end())
                refuse_date_of_class(entry, code, name, *first);
    }
}

void set_usual(const Context& context, const DaysOptions& options) {
    if (options.of_class.empty())
        check_is_own(context, options);
    change_each_entry(context, options, give_usual_time);
}

/// Retries on a day that is now free get another.
void keep_free(const Context& context, const DaysOptions& options) {
    const Days free(parse_whole_number(options.free, 0, Availability::max_free_days.count(), "free days"));
    change_days(
        context, options, [free](StatedTimes& times) { times.free_days = free; },
        "already " + std::to_string(free.count()));
}

} // namespace

void add_days(Command& line) {
    auto options = std::make_shared<DaysOptions>();
    Command days = line.group("days", "Time available for work, by weekday and date");
    add_class_option(days, options->of_class,
                     "The times of this class, for members who have set none of their own");
    days.json();
    days.closing("Examples:\n  inkturn days set mon=45 sat=120 sun=0\n"
                 "  inkturn days off 2026-12-24..2026-12-27\n"
                 "  inkturn days off 2026-12-21..2027-01-03 --class tuesday");
    days.runs(options, show_days);

    Command set = days.command("set", "Set the minutes of weekdays, every week");
    set.argument("WEEKDAY=MINUTES", options->entries,
                 "mon to sun, 0 to 1440 minutes, or usual: not set any more")
        .required();
    set.closing("Example:\n  inkturn days set mon=60 sat=120 sun=0\n"
                "For single dates: inkturn days on 2026-12-28=90");
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
    usual.runs(options, set_usual);

    Command free = days.command("free", "Set how many days of each week stay free, at least");
    free.argument("DAYS", options->free, "0 to 6 (1)").required();
    free.closing("Example:\n  inkturn days free 2");
    free.runs(options, keep_free);
}

} // namespace inkturn
