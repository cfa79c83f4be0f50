#include "view/text/clock_face.hpp"

#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

std::string ahead_text(Seconds ahead) {
    return length_text(std::max(ahead, -ahead)) + (ahead < Seconds(0) ? " behind" : " ahead");
}

std::string time_line(const ClockState& state) {
    if (state.stage == ClockStage::resting && state.overtime == Seconds(0))
        return "Resting. " + length_text(state.remaining) + " left of " + length_text(state.allowance);
    if (state.ink_changed_at)
        return (state.stage == ClockStage::resting ? "Resting. " : "CHANGE INK: ") +
               length_text(state.overtime) + " over " + length_text(state.allowance);
    return length_text(state.remaining) + " left of " + length_text(state.allowance) + ", " +
           ahead_text(state.ahead);
}

std::string part_line(const Clock& clock, const ClockState& state, Moment now) {
    const ClockPart& part = clock.parts()[*state.part];
    const PartTime time = clock.record(now).parts[*state.part];
    return "Part " + part.label + ", " + count_text(static_cast<std::size_t>(part.marks.count()), "mark") +
           ": " + length_text(time.in_time + time.overtime) + " of " + length_text(part.allowance);
}

std::string marks_line(const ClockState& state) {
    return std::to_string(state.reached.count()) + " of " + std::to_string(state.all.count()) +
           " marks reached, " + std::to_string(state.expected.count()) + " expected";
}

} // namespace

std::vector<std::string> clock_face(const Clock& clock, Moment now) {
    const ClockState state = clock.state(now);
    return {time_line(state), part_line(clock, state, now), marks_line(state)};
}

std::string clock_summary(const Clock& clock) {
    const ClockRecord record = record_of(clock);
    const ClockState state = clock.state(Moment::min());
    std::string text = "Worked for " + length_text(state.worked);
    if (state.overtime > Seconds(0))
        text += ", " + length_text(state.overtime) + " of it after the allowance of ";
    else
        text += " of ";
    text += length_text(state.allowance);
    if (!record.breaks.empty())
        text += ", with " + length_text(record.time_off()) + " time off in " +
                count_text(record.breaks.size(), "break");
    text += record.ink_changed_at ? ". When the ink changed" : ". By the end";
    return text + ", parts worth " + percent(record.reach, state.all) + " of the marks had been tried.";
}

} // namespace inkturn
