#include "inkturn/clock/clock_line.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 5> event_names{"start", "go", "rest", "work", "hand in"};

[[noreturn]] void refuse(std::string_view event) {
    throw Error("'" + std::string(event) + "' is no event of the clock");
}

ClockEvent parse_event(const Paper& paper, const std::vector<std::size_t>& positions, std::string_view text) {
    std::int64_t at = 0;
    const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), at);
    const auto digits = static_cast<std::size_t>(end - text.data());
    if (failure != std::errc() || digits == text.size() || text[digits] != ' ')
        refuse(text);
    std::string_view what = text.substr(digits + 1);
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
    return {*kind, Moment{Seconds{at}}, part};
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
        parts.push_back({paper.parts()[position].label, paper.parts()[position].max, Seconds(0)});
    return Clock(std::move(parts));
}

std::size_t place_of(const Paper& paper, const std::vector<std::size_t>& positions, std::string_view label) {
    for (std::size_t place = 0; place < positions.size(); ++place)
        if (paper.parts()[positions[place]].label == label)
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
    std::string text =
        std::to_string(event.at.time_since_epoch().count()) + ' ' + std::string(name(event.kind));
    if (names_part(event.kind))
        text += ' ' + paper.parts()[positions[event.part]].label;
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
