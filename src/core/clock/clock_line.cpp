#include "inkturn/clock/clock_line.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 5> event_names{"start", "go", "rest", "work", "hand in"};

[[noreturn]] void refuse(std::string_view event) {
    throw Error("'" + std::string(event) + "' is not a clock event");
}

/// The text before the mark, which is taken off with it; all of it where there is none.
std::string_view take_until(std::string_view& text, char mark) {
    const std::size_t end = std::min(text.find(mark), text.size());
    const std::string_view taken = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    return taken;
}

template <typename Number>
Number number_in(std::string_view text, int base, std::string_view event) {
    Number number = 0;
    const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), number, base);
    if (failure != std::errc() || end != text.data() + text.size())
        refuse(event);
    return number;
}

/// Far beyond any computer's time, so that sums of them stay whole numbers.
Seconds seconds_in(std::string_view text, std::string_view event) {
    constexpr std::int64_t max_seconds = 1'000'000'000'000;
    const auto seconds = number_in<std::int64_t>(text, 10, event);
    if (seconds > max_seconds || seconds < -max_seconds)
        refuse(event);
    return Seconds{seconds};
}

/// `48231/9f3a01bc`, or with what the wall clock was ahead of the event `48231/9f3a01bc/1200`.
ClockReading reading_in(std::string_view told, Moment at, std::string_view event) {
    const Seconds steady = seconds_in(take_until(told, '/'), event);
    const auto run = number_in<std::uint32_t>(take_until(told, '/'), 16, event);
    return {at + (told.empty() ? Seconds(0) : seconds_in(told, event)), steady, run};
}

std::string to_text(Moment at, const std::optional<ClockReading>& reading) {
    std::string text = std::to_string(at.time_since_epoch().count());
    if (!reading)
        return text;
    std::array<char, 8> run{};
    const auto end = std::to_chars(run.data(), run.data() + run.size(), reading->run, 16).ptr;
    text += '/' + std::to_string(reading->steady.count()) + '/' + std::string(run.data(), end);
    const Seconds ahead = reading->wall - at;
    return ahead == Seconds(0) ? text : text + '/' + std::to_string(ahead.count());
}

ClockEvent parse_event(const Paper& paper, const std::vector<std::size_t>& positions, std::string_view text) {
    std::string_view what = text;
    std::string_view clocks = take_until(what, ' ');
    const Moment at{seconds_in(take_until(clocks, '/'), text)};
    std::optional<ClockReading> reading;
    if (!clocks.empty())
        reading = reading_in(clocks, at, text);
    if (reading && to_text(at, reading) != text.substr(0, text.find(' ')))
        refuse(text);
    std::string_view label;
    const std::size_t blank = what.find(' ');
    if (!clock_event_named(what) && blank != std::string_view::npos) {
        label = what.substr(blank + 1);
        what = what.substr(0, blank);
    }
    const auto kind = clock_event_named(what);
    if (!kind || names_part(*kind) == label.empty())
        refuse(text);
    const std::size_t part = names_part(*kind) ? place_of(paper, positions, label) : 0;
    return {*kind, at, part, reading};
}

} // namespace

std::string_view name(ClockEventKind kind) noexcept {
    return event_names[static_cast<std::size_t>(kind)];
}

std::optional<ClockEventKind> clock_event_named(std::string_view name) noexcept {
    const auto found = std::find(event_names.begin(), event_names.end(), name);
    if (found == event_names.end())
        return std::nullopt;
    return static_cast<ClockEventKind>(found - event_names.begin());
}

bool names_part(ClockEventKind kind) noexcept {
    return kind == ClockEventKind::start || kind == ClockEventKind::go;
}

Clock untimed_clock(const Paper& paper, const std::vector<std::size_t>& positions) {
    std::vector<ClockPart> parts;
    for (const std::size_t position : positions)
        parts.push_back({paper.part(position).label, paper.part(position).max, Seconds(0)});
    return Clock(std::move(parts));
}

std::size_t place_of(const Paper& paper, const std::vector<std::size_t>& positions, std::string_view label) {
    for (std::size_t place = 0; place < positions.size(); ++place)
        if (paper.part(positions[place]).label == label)
            return place;
    throw Error("the clock names a part '" + std::string(label) + "' that paper " + paper.id() +
                " does not have");
}

void check_events(const Paper& paper, const std::vector<std::size_t>& positions,
                  const std::vector<ClockEvent>& events) {
    if (events.empty())
        return;
    Clock clock = untimed_clock(paper, positions);
    for (const ClockEvent& event : events)
        clock.take(event);
}

std::string to_text(const ClockEvent& event, const Paper& paper, const std::vector<std::size_t>& positions) {
    std::string text = to_text(event.at, event.reading) + ' ' + std::string(name(event.kind));
    if (!names_part(event.kind))
        return text;
    if (event.part >= positions.size())
        throw Error("the clock covers " + std::to_string(positions.size()) + " parts", Error::Kind::misused);
    text += ' ' + paper.part(positions[event.part]).label;
    return text;
}

std::string to_line(const std::vector<ClockEvent>& events, const Paper& paper,
                    const std::vector<std::size_t>& positions) {
    std::string line;
    for (const ClockEvent& event : events)
        line += (line.empty() ? "" : ",") + to_text(event, paper, positions);
    return line;
}

std::vector<ClockEvent> parse_clock_line(const Paper& paper, const std::vector<std::size_t>& positions,
                                         std::string_view line) {
    std::vector<ClockEvent> events;
    if (line.empty())
        return events;
    Clock clock = untimed_clock(paper, positions);
    for (;;) {
        const std::size_t comma = std::min(line.find(','), line.size());
        events.push_back(parse_event(paper, positions, line.substr(0, comma)));
        clock.take(events.back());
        if (comma == line.size())
            return events;
        line.remove_prefix(comma + 1);
    }
}

} // namespace inkturn
