#include "view/figure/axis.hpp"

#include <algorithm>
#include <cmath>

namespace inkturn {
namespace {

constexpr double label_gap = 8; ///< pixels, between two labels
constexpr std::int64_t seconds_a_minute = 60;
constexpr std::int64_t minutes_an_hour = 60;

std::int64_t rounded_up(std::int64_t number, std::int64_t step) {
    return (number + step - 1) / step;
}

} // namespace

std::int64_t round_step(std::int64_t length, std::int64_t max) {
    for (std::int64_t ten = 1;; ten *= 10)
        for (const std::int64_t step : {ten, 2 * ten, 5 * ten})
            if (rounded_up(length, step) <= max)
                return step;
}

std::int64_t minutes_step(std::int64_t minutes, std::int64_t max) {
    for (const std::int64_t step : {1, 2, 5, 10, 15, 30})
        if (minutes / step <= max)
            return step;
    return minutes_an_hour * round_step(minutes / minutes_an_hour, max);
}

std::vector<Tick> count_ticks(std::int64_t highest, std::int64_t max) {
    const std::int64_t length = std::max<std::int64_t>(1, highest);
    const std::int64_t step = round_step(length, max);
    std::vector<Tick> ticks;
    for (std::int64_t value = 0; value < length + step; value += step)
        ticks.push_back({static_cast<double>(value), std::to_string(value)});
    return ticks;
}

std::vector<Tick> percent_ticks(std::int64_t max) {
    const std::int64_t step = round_step(100, max);
    std::vector<Tick> ticks;
    for (std::int64_t value = 0; value <= 100; value += step)
        ticks.push_back({static_cast<double>(value) / 100, std::to_string(value) + "%"});
    return ticks;
}

std::vector<Tick> minute_ticks(Seconds longest, std::int64_t max) {
    const std::int64_t last = longest.count() / seconds_a_minute;
    const std::int64_t step = minutes_step(last, max);
    std::vector<Tick> ticks;
    for (std::int64_t minute = 0; minute <= last; minute += step)
        ticks.push_back({static_cast<double>(minute * seconds_a_minute), std::to_string(minute)});
    return ticks;
}

std::int64_t max_intervals(double length, double label_length) {
    return std::max<std::int64_t>(1, static_cast<std::int64_t>(length / (label_length + label_gap)));
}

std::string percent(double share) {
    return std::to_string(std::llround(share * 100)) + "%";
}

} // namespace inkturn
