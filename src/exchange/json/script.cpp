#include "exchange/json/script.hpp"

#include "exchange/json/value.hpp"
#include "inkturn/clock/clock.hpp"

namespace inkturn {
namespace {

Json times_by_part(const Clock& clock, const std::vector<PartTime>& times) {
    Json parts = Json::array();
    for (std::size_t i = 0; i < times.size(); ++i)
        parts.push_back({{"part", clock.parts()[i].label},
                         {"in_time_seconds", times[i].in_time.count()},
                         {"overtime_seconds", times[i].overtime.count()}});
    return parts;
}

Json value_of(const std::vector<Break>& breaks) {
    Json list = Json::array();
    for (const Break& rest : breaks)
        list.push_back({{"from", iso(rest.from)}, {"to", iso(rest.to)}});
    return list;
}

/// Those of a part that is not marked yet are left out.
Json marks_so_far(const Script& script) {
    Json parts = Json::array();
    for (std::size_t place = 0; place < script.marks.size(); ++place) {
        const Part& part = script.paper->parts()[script.positions[place]];
        if (script.marks[place])
            parts.push_back(value_of(part, *script.marks[place]));
        else
            parts.push_back({{"part", part.label}, {"max", part.max.count()}});
        add_note(script.notes, part, parts.back());
    }
    return parts;
}

} // namespace

Json value_of(const Clock& clock) {
    const ClockRecord record = record_of(clock);
    Json ink_changed_at = nullptr;
    if (record.ink_changed_at)
        ink_changed_at = iso(*record.ink_changed_at);
    return {{"parts", times_by_part(clock, record.parts)},
            {"breaks", value_of(record.breaks)},
            {"time_off_seconds", record.time_off().count()},
            {"ink_changed_at", ink_changed_at},
            {"reach", static_cast<double>(record.reach.count()) / clock.marks().count()}};
}

Json value_of(const Script& script) {
    const Clock clock = clock_of(script);
    Json retry = nullptr;
    if (script.id.retry)
        retry = to_text(script.id);
    return {{"sitting", static_cast<std::int64_t>(script.id.sitting)},
            {"retry", retry},
            {"candidate", script.candidate},
            {"paper", script.paper->id()},
            {"date", iso(script.day)},
            {"handed_in", script.is_handed_in()},
            {"allowance_seconds", clock.allowance().count()},
            {"parts", marks_so_far(script)},
            {"clock", value_of(clock)}};
}

std::string json_of(const Script& script) {
    return text_of(value_of(script));
}

} // namespace inkturn
