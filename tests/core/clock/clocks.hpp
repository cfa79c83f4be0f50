#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/clock/clock.hpp"

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <utility>
#include <vector>

namespace inkturn::test {

constexpr Day sitting_day{date::year{2026} / date::November / 25};

/// Seconds after nine.
inline Moment at(int seconds) {
    return sitting_day + std::chrono::hours{9} + Seconds(seconds);
}

inline Clock clock_after(std::vector<ClockPart> parts, const std::vector<ClockEvent>& events) {
    Clock clock(std::move(parts));
    for (const ClockEvent& event : events)
        clock.take(event);
    return clock;
}

inline int in_time(const ClockRecord& record, std::size_t part) {
    return static_cast<int>(record.parts[part].in_time.count());
}
inline int overtime(const ClockRecord& record, std::size_t part) {
    return static_cast<int>(record.parts[part].overtime.count());
}

inline bool same(const ClockState& a, const ClockState& b) {
    return a.stage == b.stage && a.part == b.part && a.worked == b.worked && a.allowance == b.allowance &&
           a.remaining == b.remaining && a.overtime == b.overtime && a.ink_changed_at == b.ink_changed_at &&
           a.done == b.done && a.expected == b.expected && a.all == b.all && a.ahead == b.ahead;
}

template <class T, class Equal>
bool same(const std::vector<T>& a, const std::vector<T>& b, Equal equal) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), equal);
}

inline bool same(const ClockRecord& a, const ClockRecord& b) {
    return same(a.parts, b.parts,
                [](const PartTime& x, const PartTime& y) {
                    return x.in_time == y.in_time && x.overtime == y.overtime;
                }) &&
           same(a.breaks, b.breaks,
                [](const Break& x, const Break& y) { return x.from == y.from && x.to == y.to; }) &&
           a.ink_changed_at == b.ink_changed_at && a.reach == b.reach &&
           same(a.points, b.points, [](const ClockPoint& x, const ClockPoint& y) {
               return x.worked == y.worked && x.marks == y.marks;
           });
}

} // namespace inkturn::test
