#include "minimum.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <cmath>

namespace inkturn {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double longest_step = 2; // variances change by a factor of e² at most

/// Goes along a falling direction until the value has fallen by a fair part of what the slope promised.
/// Nothing is gained below the precision of the value itself.
bool step_down(const SlopedFunction& function, VectorXd& at, Sloped& here, VectorXd direction) {
    const double length = direction.norm();
    if (length > longest_step)
        direction *= longest_step / length;
    const double promised = here.slope.dot(direction);
    for (double part = 1; part > 1e-12; part /= 2) {
        const VectorXd next = at + part * direction;
        Sloped there = function(next);
        if (std::isfinite(there.value) && there.value < here.value + 1e-4 * part * promised) {
            at = next;
            here = std::move(there);
            return true;
        }
    }
    return false;
}

void learn(MatrixXd& inverse, const VectorXd& moved, const VectorXd& turned) {
    const double curved = moved.dot(turned);
    if (curved <= 1e-12 * moved.norm() * turned.norm())
        return;
    const MatrixXd identity = MatrixXd::Identity(moved.size(), moved.size());
    const MatrixXd left = identity - moved * turned.transpose() / curved;
    inverse = left * inverse * left.transpose() + moved * moved.transpose() / curved;
}

} // namespace

Minimum minimum(const SlopedFunction& function, VectorXd start, const VectorXd& curved, double least_gain) {
    constexpr int most_steps = 500;
    constexpr double precision = 1e-13; // of a value
    const MatrixXd first = curved.cwiseInverse().asDiagonal();
    VectorXd at = std::move(start);
    Sloped here = function(at);
    MatrixXd inverse = first;
    bool learned = false;
    for (int step = 0; step < most_steps; ++step) {
        const VectorXd direction = -(inverse * here.slope);
        if (-direction.dot(here.slope) <= std::max(least_gain, precision * std::abs(here.value)))
            return {at, inverse};
        const VectorXd before = at;
        const VectorXd slope_before = here.slope;
        if (step_down(function, at, here, direction)) {
            learn(inverse, at - before, here.slope - slope_before);
            learned = true;
        } else if (learned) {
            inverse = first;
            learned = false;
        } else {
            return {at, first}; // it falls no further by any step: this is its precision
        }
    }
    throw Error("the model of what the marks say did not settle: please report the marks that it was given");
}

} // namespace inkturn
