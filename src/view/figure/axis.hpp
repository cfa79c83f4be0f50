#pragma once

#include "inkturn/base/time.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace inkturn {

/// The least of 1, 2, 5, 10, 20, 50 ... that cuts the length into at most `max` intervals, the last of which
/// may be cut short. The length is not negative, `max` above 0.
std::int64_t round_step(std::int64_t length, std::int64_t max);

/// The same of minutes, in steps that a clock's face has (1, 2, 5, 10, 15, 30), then in round hours; as many
/// whole intervals as `max`.
std::int64_t minutes_step(std::int64_t minutes, std::int64_t max);

/// Where values lie along one side of a figure: `low` at the pixel `start`, `high` at the pixel `end`, which
/// may be the lesser one.
struct Scale {
    double low;
    double high; ///< above low
    double start;
    double end;

    double at(double value) const { return start + (value - low) / (high - low) * (end - start); }
};

struct Tick {
    double value;
    std::string label;
};

/// From 0 to the first round number not below `highest`, by round_step(); at most `max` intervals.
std::vector<Tick> count_ticks(std::int64_t highest, std::int64_t max);

/// From 0 to 1 in percent; at most `max` intervals.
std::vector<Tick> percent_ticks(std::int64_t max);

/// In seconds, labelled in minutes, from 0 up to the longest time and not beyond, by minutes_step().
std::vector<Tick> minute_ticks(Seconds longest, std::int64_t max);

/// The most intervals between ticks along a side of this length whose labels keep apart.
std::int64_t max_intervals(double length, double label_length);

/// A share in whole percent, a half up: `67%`.
std::string percent(double share);

} // namespace inkturn
