#include "exchange/document/attempt.hpp"

#include "inkturn/clock/clock_line.hpp"
#include "inkturn/paper/codes.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::chrono::hours end_of_day_anywhere{36}; ///< from 0:00 UTC on; clocks are up to 12 h behind it

PartMarks read_part_marks(const JsonValue& value, const Part& part) {
    return value.checked([&, &written = value.text()] {
        const PartMarks marks = parse_part_marks(written, part.max);
        check_by_code(marks, part);
        return marks;
    });
}

/// Calls take(i, value) for the part at each of `positions`, ascending. Refuses a part left out, or another.
template <typename Take>
void each_part(const JsonValue& value, const Paper& paper, const std::vector<std::size_t>& positions,
               const Take& take) {
    std::vector<bool> is_named(positions.size());
    value.each_member([&](const std::string& label, const JsonValue& member) {
        const auto part = paper.find_part(label);
        if (!part)
            member.refuse("paper " + paper.id() + " has no such part");
        const auto position = std::lower_bound(positions.begin(), positions.end(), *part);
        if (position == positions.end() || *position != *part)
            member.refuse("the part does not belong to the question");
        const auto i = static_cast<std::size_t>(position - positions.begin());
        is_named[i] = true;
        take(i, member);
    });
    const auto missing = std::find(is_named.begin(), is_named.end(), false);
    if (missing != is_named.end())
        value.refuse("no marks for part " +
                     paper.parts()[positions[static_cast<std::size_t>(missing - is_named.begin())]].label +
                     " of paper " + paper.id());
}

Moment read_moment(const JsonValue& value, Day today) {
    const auto at = read_iso_moment(value.text());
    if (!at)
        value.refuse("'" + value.text() + "' is not a moment: write it as 2026-11-25T09:00:30Z");
    if (*at >= today + end_of_day_anywhere)
        value.refuse(value.text() + " is in the future");
    return *at;
}

ClockEvent read_event(const JsonValue& value, const Paper& paper, const std::vector<std::size_t>& positions,
                      Day today) {
    value.check_keys({"at", "event"}, {"part"});
    const JsonValue said = value.at("event");
    const auto kind = clock_event_named(said.text());
    if (!kind)
        said.refuse("'" + said.text() + "' is not an event: events are start, go, rest, work and hand in");
    if (names_part(*kind) != value.has("part"))
        value.refuse("start and go name a part, and no other event does");
    ClockEvent event{*kind, read_moment(value.at("at"), today)};
    if (names_part(*kind)) {
        const JsonValue part = value.at("part");
        event.part = part.checked([&, &label = part.text()] { return place_of(paper, positions, label); });
    }
    return event;
}

} // namespace

std::vector<PartMarks> read_marks(const JsonValue& value, const Paper& paper,
                                  const std::vector<std::size_t>& positions) {
    std::vector<PartMarks> marks(positions.size());
    each_part(value, paper, positions, [&](std::size_t i, const JsonValue& member) {
        marks[i] = read_part_marks(member, paper.parts()[positions[i]]);
    });
    return marks;
}

std::vector<std::optional<PartMarks>> read_script_marks(const JsonValue& value, const Paper& paper,
                                                        const std::vector<std::size_t>& positions) {
    std::vector<std::optional<PartMarks>> marks(positions.size());
    each_part(value, paper, positions, [&](std::size_t i, const JsonValue& member) {
        if (!member.is_null())
            marks[i] = read_part_marks(member, paper.parts()[positions[i]]);
    });
    return marks;
}

std::vector<ClockEvent> read_clock(const JsonValue& value, const Paper& paper,
                                   const std::vector<std::size_t>& positions, Day today) {
    Clock clock = untimed_clock(paper, positions);
    std::vector<ClockEvent> events;
    value.each_element([&](const JsonValue& element) {
        events.push_back(read_event(element, paper, positions, today));
        element.checked([&] { clock.take(events.back()); });
    });
    if (events.empty())
        value.refuse("a clock has at least its start");
    return events;
}

std::vector<ClockEvent> read_whole_clock(const JsonValue& owner, const Paper& paper,
                                         const std::vector<std::size_t>& positions, Day today) {
    if (!owner.has("clock"))
        return {};
    const JsonValue value = owner.at("clock");
    std::vector<ClockEvent> clock = read_clock(value, paper, positions, today);
    if (clock.back().kind != ClockEventKind::hand_in)
        value.refuse("only what was handed in has marks, but the last event is not hand in");
    return clock;
}

Notes read_notes(const JsonValue& owner, const Paper& paper, const std::vector<std::size_t>& positions) {
    Notes notes;
    if (!owner.has("notes"))
        return notes;
    owner.at("notes").each_member([&](const std::string& label, const JsonValue& note) {
        note.checked([&] { check_fits(paper, positions, {{label, note.text()}}); });
        notes.emplace(label, note.text());
    });
    return notes;
}

ExtraTime read_extra_time(const JsonValue& value) {
    return ExtraTime(value.whole_number(0, ExtraTime::max_percent));
}

std::size_t read_question(const JsonValue& value, const std::string& label, const Paper& paper) {
    const auto question = paper.find_question(label);
    if (!question)
        value.refuse("paper " + paper.id() + " has no question " + label + " to retry");
    return *question;
}

} // namespace inkturn
