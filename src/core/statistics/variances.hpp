#pragma once

#include <array>
#include <cstddef>

namespace inkturn {

/// How shares of a part's marks scatter: variances, but for the last.
enum class Scatter : std::size_t {
    candidate,       ///< of what candidates can do
    trend,           ///< of what they gain in a unit of time
    part,            ///< of how hard parts are
    topic,           ///< of how hard topics are
    candidate_topic, ///< of what a candidate can do on one topic, beside the rest
    rest,            ///< of all else, in a part of one mark
    steady           ///< the share of the rest that more marks do not lessen, between 0 and 1
};
constexpr std::size_t scatters = 7;

/// One number for each Scatter.
using Scatters = std::array<double, scatters>;

constexpr double& of(Scatters& numbers, Scatter which) {
    return numbers[static_cast<std::size_t>(which)];
}
constexpr double of(const Scatters& numbers, Scatter which) {
    return numbers[static_cast<std::size_t>(which)];
}

/// The variance of the rest in a part of so many marks.
double rest_variance(const Scatters& variances, double marks);

} // namespace inkturn
