#include "minimum.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <utility>

namespace inkturn {
namespace {

using namespace dense;

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

/// What a step told of how the function bends.
struct Step {
    VectorXd moved;
    VectorXd turned; ///< by how much the slope changed
};

/// Those that are kept bend the guess; what others told is of too far away.
class Bend {
  public:
    void learn(Step step) {
        constexpr std::size_t most_steps = 7;
        if (step.moved.dot(step.turned) <= 1e-12 * step.moved.norm() * step.turned.norm())
            return;
        steps_.push_back(std::move(step));
        if (steps_.size() > most_steps)
            steps_.pop_front();
    }
    bool knows_any() const { return !steps_.empty(); }
    void forget() { steps_.clear(); }

    MatrixXd inverse(const VectorXd& curved) const {
        MatrixXd inverse = curved.cwiseInverse().asDiagonal();
        for (const auto& [moved, turned] : steps_) {
            const double bend = moved.dot(turned);
            const MatrixXd left =
                MatrixXd::Identity(moved.size(), moved.size()) - outer(moved, turned) / bend;
            inverse = sandwich(left, inverse) + outer(moved, moved) / bend;
        }
        return inverse;
    }

  private:
    std::deque<Step> steps_;
};

/// Tells how much of the way from the greatest promise to the least is gone, never less than before.
class Way {
  public:
    Way(double least, const HowFar& told) : least_(std::log(least)), greatest_(least_), told_(told) {}

    void promises(double gain) {
        if (!told_ || !(gain > 0))
            return;
        const double here = std::log(gain);
        greatest_ = std::max(greatest_, here);
        if (greatest_ > least_)
            share_ = std::max(share_, std::min((greatest_ - here) / (greatest_ - least_), 1.0));
        told_(share_);
    }

  private:
    double least_;
    double greatest_;
    const HowFar& told_;
    double share_ = 0;
};

} // namespace

Minimum minimum(const SlopedFunction& function, VectorXd start, double least_gain, const HowFar& told) {
    constexpr int most_steps = 500;
    constexpr double precision = 1e-13; // of a value
    VectorXd at = std::move(start);
    Sloped here = function(at);
    Bend bend;
    Way way(least_gain, told);
    for (int step = 0; step < most_steps; ++step) {
        const MatrixXd inverse = bend.inverse(here.curved);
        const VectorXd direction = -times(inverse, here.slope);
        const double promised = -direction.dot(here.slope);
        way.promises(promised);
        if (promised <= std::max(least_gain, precision * std::abs(here.value)))
            return {at, inverse};
        const VectorXd before = at;
        const VectorXd slope_before = here.slope;
        if (step_down(function, at, here, direction))
            bend.learn({at - before, here.slope - slope_before});
        else if (bend.knows_any())
            bend.forget();
        else
            return {at, inverse}; // it falls no further by any step: this is its precision
    }
    throw Error("the model of what the marks say did not settle: please report the marks that it was given");
}

} // namespace inkturn
