#pragma once

#include "inkturn/paper/marks.hpp"

#include <optional>
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

/// Marks earned out of a maximum.
struct Score {
    Marks earned; ///< 0 to max
    Marks max;    ///< above 0
};

/// What a paper not yet sat is expected to bring.
struct Prediction {
    struct Range {
        Marks low;
        Marks high;
    };
    Marks middle;
    std::optional<Range> range; ///< nothing with fewer than min_scores_for_range scores

    static constexpr std::size_t min_scores_for_range = 3;
};

/// The prediction for `next` marks, above 0, from scores of papers of any lengths: the share of all their
/// marks, a half rounded up, and a range that holds the next score with this confidence if the candidate's
/// level stays the same. Its ends are rounded outwards and lie within 0 and `next`. Nothing without a score.
std::optional<Prediction> predict_next(const std::vector<Score>& past, Marks next, double confidence = 0.9);

} // namespace inkturn
