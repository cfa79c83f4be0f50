#pragma once

#include "inkturn/paper/marks.hpp"

#include <vector>

namespace inkturn {

/// From `low` to `high`, both included.
struct Interval {
    double low;
    double high;
};

/// The equal-tailed interval for a share after `successes` out of `trials`, both of which may be fractions:
/// quantiles of the Beta distribution with s + 1/2 and n - s + 1/2 (Jeffreys' prior). Successes are 0 to
/// `trials`, trials above 0, the confidence lies between 0 and 1. No successes and all successes are not
/// special cases: the interval still stops short of 0 and 1, so the share itself lies outside it.
Interval jeffreys_interval(double successes, double trials, double confidence = 0.95);

/// How many parts of equal marks would tell as much as these: (Σm)²/Σm² (Kish 1965), from 1 to their number;
/// 0 if there are none.
double effective_parts(const std::vector<Marks>& parts);

/// The quantile of Student's t distribution. The probability lies between 0 and 1, degrees are above 0.
double student_t_quantile(double probability, double degrees_of_freedom);

/// How likely a number at least as far from 0 as t is, in Student's t distribution. Degrees are above 0.
double student_t_tails(double t, double degrees_of_freedom);

} // namespace inkturn
