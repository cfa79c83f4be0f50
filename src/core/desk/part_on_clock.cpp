#include "inkturn/desk/part_on_clock.hpp"

#include <algorithm>

namespace inkturn {

std::vector<PartOnClock> parts_on_clock(const Script& script) {
    if (script.events.empty())
        return {};
    const Clock clock = clock_of(script);
    const ClockRecord record = record_of(clock);
    std::vector<PartOnClock> parts;
    for (std::size_t i = 0; i < clock.parts().size(); ++i) {
        const PartTime time = record.parts[i];
        parts.push_back(
            {time.in_time > Seconds(0), time.overtime > Seconds(0), time, clock.parts()[i].allowance});
    }
    for (const ClockEvent& event : script.events) {
        if (event.kind != ClockEventKind::start && event.kind != ClockEventKind::go)
            continue;
        const bool changed = record.ink_changed_at && event.at >= *record.ink_changed_at;
        (changed ? parts[event.part].overtime : parts[event.part].in_time) = true;
    }
    return parts;
}

Phase first_phase(const PartOnClock& seen) {
    return seen.overtime && !seen.in_time ? Phase::overtime : Phase::in_time;
}

bool is_overtime_doubtful(const std::vector<PartOnClock>& seen, const PartMarks& marks) {
    return !seen.empty() && marks.overtime() > Marks(0) &&
           std::none_of(seen.begin(), seen.end(), [](const PartOnClock& part) { return part.overtime; });
}

} // namespace inkturn
