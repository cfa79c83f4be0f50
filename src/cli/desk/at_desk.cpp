#include "cli/desk/at_desk.hpp"

#include "cli/computer_clock.hpp"
#include "cli/csv_options.hpp"
#include "cli/desk/live_clock.hpp"
#include "cli/local_time.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "exchange/json/script.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/clock/events.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/clock_face.hpp"
#include "view/text/history.hpp"
#include "view/text/marking.hpp"
#include "view/text/pace_chart.hpp"
#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <iterator>
#include <ostream>

namespace inkturn {
namespace {

constexpr std::chrono::hours half_a_day{12};
constexpr std::chrono::hours a_day{24};
constexpr std::size_t max_bytes_of_events = 1'000'000;

/// The places of the parts that were set.
std::vector<std::size_t> places_set(const Script& script) {
    std::vector<std::size_t> places;
    for (std::size_t place = 0; place < script.positions.size(); ++place)
        if (script.is_set(place))
            places.push_back(place);
    return places;
}

std::string read_text(const InputFile& file) {
    std::string text(max_bytes_of_events + 1, '\0');
    file.stream().read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(file.stream().gcount()));
    if (text.size() > max_bytes_of_events)
        throw Error("'" + file.name() +
                    "' is too long for the events of a sitting: write one line per event");
    return text;
}

/// Turns events read as UTC into what they were on the local wall clock, even on a night when that changes.
std::vector<ClockEvent> by_wall_clock(std::vector<ClockEvent> events) {
    Moment last = Moment::min();
    for (ClockEvent& event : events) {
        const Day shown = date::floor<Days>(event.at);
        event.at = std::max(last, local_moment(shown, event.at - shown));
        last = event.at;
    }
    return events;
}

std::vector<ClockEvent> read_events_of(const Context& context, const Script& script,
                                       const std::string& name) {
    const InputFile file(name, context);
    std::vector<Problem> problems;
    const std::vector<std::size_t> places = places_set(script);
    std::vector<std::string> labels;
    for (const std::size_t place : places)
        labels.push_back(script.paper->part(script.positions[place]).label);
    std::vector<ClockEvent> events = read_events(read_text(file), labels, script.day, problems);
    refuse_problems(context, file.name(), problems, "nothing was stored");
    for (ClockEvent& event : events)
        if (event.kind == ClockEventKind::start || event.kind == ClockEventKind::go)
            event.part = places[event.part];
    events = by_wall_clock(std::move(events));
    if (context.today.empty() && events.back().at > moment_now())
        throw Error("'" + file.name() + "': the last event, at " + local_time_text(events.back().at) +
                    ", is in the future: check the times and --date");
    return events;
}

/// Where times of day are not those that the computer's clock shows now.
std::string clock_set_text(const Script& script) {
    const ClockEvent& last = script.events.back();
    const Seconds ahead = last.reading ? last.reading->wall - last.at : Seconds(0);
    if (ahead <= max_jump && ahead >= -max_jump)
        return "";
    return wrapped("The computer's clock was set " + length_text(std::max(ahead, -ahead)) +
                       (ahead > Seconds(0) ? " forward" : " back") +
                       " meanwhile: times of day are those before it was set.",
                   text_width()) +
           '\n';
}

void print_handed_in(const Context& context, const Script& script) {
    const Clock clock = clock_of(script);
    context.out << context.heading(heading_of(script)) << ", handed in at "
                << local_time_text(script.events.back().at) << '\n'
                << wrapped(clock_summary(clock), text_width()) << "\n\n"
                << part_times_table(clock, record_of(clock).parts) << clock_set_text(script)
                << "\nNext, with the mark scheme: " << next_command(script) << '\n';
}

void print_left(const Context& context, const Script& script) {
    const bool rests = script.events.back().kind == ClockEventKind::rest;
    context.out << heading_of(script) << ": the " << (rests ? "break goes on" : "clock is still running")
                << ".\nNext: inkturn sit --resume\n";
}

void run_on_terminal(const Context& context, Store& store, Script& script) {
    const Clock clock = clock_of(script);
    context.out << context.heading(heading_of(script)) << ", "
                << count_text(static_cast<std::size_t>(clock.marks().count()), "mark") << " in "
                << length_text(clock.allowance()) << ", from " << local_time_text(script.events.front().at)
                << '\n';
    context.out << extra_time_text(script.extra_time);
    const ClockExit clock_exit = run_live_clock(context, store, script);
    if (clock_exit.handed_in)
        print_handed_in(context, script);
    else
        print_left(context, script);
    context.out.flush();
    if (clock_exit.signal)
        end_by(*clock_exit.signal);
}

/// When the clock starts: the time typed, today's if it passed less than an allowance ago.
Moment start_moment(const std::string& typed, Seconds allowance) {
    const Moment now = moment_now();
    if (typed.empty())
        return now;
    const Seconds time = parse_time_of_day(typed);
    const Moment next = first_local_moment(time, now);
    const Moment last = local_moment(local_day(next) - date::days{1}, time);
    if (now - last < allowance)
        return last;
    if (next - now <= half_a_day)
        return next;
    throw Error("--start-at " + typed + " was " + length_text(now - last) +
                " ago, longer than the allowance: leave it out to start now");
}

void put_on_file(const Context& context, Store& store, Script& script) {
    Store::Change change(store);
    keep_times_by_default(context, change, script.candidate);
    check_desk_is_free(store, script.candidate);
    Desk(change).add(script);
    change.commit();
}

/// Called before the wait for the start, so that nobody waits only to be refused.
void check_can_be_put_on_file(Store& store, Script script) {
    Store::Change taken_back(store);
    check_desk_is_free(store, script.candidate);
    Desk(taken_back).add(script);
}

void write_live(const Context& context, Store& store, Script script, const DeskOptions& options) {
    check_clock_has_terminal(script.id.retry ? "retry --sit" : "sit");
    check_can_be_put_on_file(store, script);
    ClockExit clock_exit;
    const auto start =
        wait_for_start(context, start_moment(options.start_at, clock_of(script).allowance()), clock_exit);
    if (!start) {
        context.out << "Not started; nothing was stored.\n" << std::flush;
        if (clock_exit.signal)
            end_by(*clock_exit.signal);
        return;
    }
    script.events = {{ClockEventKind::start, start->at, places_set(script).front(), start->reading}};
    put_on_file(context, store, script);
    run_on_terminal(context, store, script);
}

void write_from_events(const Context& context, Store& store, Script script, const DeskOptions& options) {
    script.events = read_events_of(context, script, options.events);
    put_on_file(context, store, script);
    context.answer([&] { return json_of(script); }, [&] { print_handed_in(context, script); });
}

/// Records a break from when work stopped: the first such time at or after the last event.
void take_break(Store& store, Script& script, const std::string& stopped) {
    const ClockReading reading = clocks_now();
    const ClockEvent& last = script.events.back();
    const TimeNow now = time_now(last.at, last.reading, reading);
    if (now.doubt)
        throw Error("the computer's clock jumped since the last key: use 'inkturn sit --resume' without "
                    "--stopped-at first, and say which time counts");
    const Seconds wall_ahead = reading.wall - now.at;
    const Moment from = first_local_moment(parse_time_of_day(stopped), last.at + wall_ahead) - wall_ahead;
    Store::Change change(store);
    for (ClockEvent event : stopped_at(from, now.at)) {
        event.reading = earlier(reading, now.at - event.at);
        clock_of(script).take(event);
        Desk(change).add_event(script, event);
    }
    change.commit();
}

} // namespace

void write_script(const Context& context, Store& store, Script script, const DeskOptions& options) {
    if (options.events.empty())
        write_live(context, store, std::move(script), options);
    else
        write_from_events(context, store, std::move(script), options);
}

void resume_script(const Context& context, Store& store, Script script, const std::string& stopped_at) {
    check_clock_has_terminal("sit --resume");
    if (!stopped_at.empty())
        take_break(store, script, stopped_at);
    run_on_terminal(context, store, script);
}

std::optional<Script> script_on_file(const Context& context, Store& store, const ScriptId& id) {
    auto script = Desk::find(store, id);
    if (script && !context.candidate.empty() && context.candidate_code() != script->candidate)
        throw Error((id.retry ? "retry " : "sitting ") + to_text(id) + " belongs to candidate " +
                    script->candidate + ", not " + context.candidate);
    return script;
}

std::string next_command(const Script& script) {
    return script.is_handed_in() ? "inkturn mark " + to_text(script.id) : "inkturn sit --resume";
}

std::string heading_of(const Script& script) {
    return script.id.retry ? "Retry " + to_text(script.id) + ": question " + script.id.retry->question +
                                 " of " + script.paper->id()
                           : "Sitting " + to_text(script.id) + ": " + script.paper->id();
}

std::optional<Script> running_script(const Store& store, const std::string& candidate) {
    for (Script& script : Desk::scripts(store, candidate))
        if (!script.is_handed_in())
            return std::move(script);
    return std::nullopt;
}

void check_desk_is_free(const Store& store, const std::string& candidate) {
    const auto running = running_script(store, candidate);
    if (running)
        throw Error("the clock of " + to_text(running->id) + " (" + running->paper->id() + ", from " +
                    local_time_text(running->events.front().at) +
                    ") is still running: hand it in first, with 'inkturn sit --resume'");
}

void check_is_handed_in(const Script& script) {
    if (!script.is_handed_in())
        throw Error("the clock of " + to_text(script.id) +
                    " is still running: hand it in first, with 'inkturn sit --resume'");
}

std::optional<MarkedThrough> keep_marks(Store::Change& change, const Script& script, Day today) {
    check_is_handed_in(script);
    const Store& store = change.store();
    Desk desk(change);
    desk.keep_marks(script);
    if (!script.is_marked())
        return std::nullopt;
    const Candidate days_before = store.candidate(script.candidate);
    keep_days_passed(change, script.candidate, today);
    if (script.id.retry)
        check_can_be_taken(store.candidate(script.candidate), *script.id.retry, script.day, today);
    desk.finish(script);
    MarkedThrough marked{store.candidate(script.candidate), {}};
    marked.kept = keep_timetable(change, marked.candidate, today, days_before);
    return marked;
}

std::vector<std::string> not_marked(const Script& script) {
    std::vector<std::string> labels;
    for (std::size_t place = 0; place < script.marks.size(); ++place)
        if (!script.marks[place])
            labels.push_back(script.paper->parts()[script.positions[place]].label);
    return labels;
}

void print_script(const Context& context, const Script& script) {
    context.out << context.heading(heading_of(script)) << " on " << day_text(script.day) << ", candidate "
                << visible(script.candidate) << "\n\n";
    print_clock(context, clock_of(script));
    context.out << clock_set_text(script);
    if (!script.notes.empty())
        context.out << '\n' << notes_text(script.notes);
    if (script.is_marked())
        context.out << "\nEvery part is marked.";
    else if (script.is_handed_in())
        context.out << "\nStill to mark: " << wrapped_list(not_marked(script), text_width(), 2);
    else
        context.out << "\nThe clock is running.";
    context.out << "\nNext: " << next_command(script) << '\n';
}

void print_clock(const Context& context, const Clock& clock) {
    const ClockRecord record = record_of(clock);
    context.out << pace_chart_text(record.points, clock.allowance(), clock.marks()) << '\n'
                << part_times_table(clock, record.parts) << '\n';
    if (record.ink_changed_at)
        context.out << "The ink changed at " << local_time_text(*record.ink_changed_at) << ".\n";
    for (const Break& rest : record.breaks)
        context.out << "Time off from " << local_time_text(rest.from) << " to " << local_time_text(rest.to)
                    << ".\n";
    const std::string slow = slow_text(clock);
    context.out << wrapped(clock_summary(clock), text_width()) << '\n' << slow << (slow.empty() ? "" : "\n");
}

} // namespace inkturn
