#pragma once

#include <Eigen/Dense>

#include <functional>

namespace inkturn {

struct Sloped {
    double value;
    Eigen::VectorXd slope;
};
using SlopedFunction = std::function<Sloped(const Eigen::VectorXd&)>;

/// Where a smooth function that rises in all directions is least: by quasi-Newton steps (BFGS: Nocedal &
/// Wright 2006, algorithm 6.1), until another would lower it by less than 1e-10 or than its own precision.
/// `curved` guesses the second derivatives, each above 0. Throws Error where it does not get there.
Eigen::VectorXd minimum(const SlopedFunction& function, Eigen::VectorXd start, const Eigen::VectorXd& curved);

/// The second derivatives, from differences of the slopes.
Eigen::MatrixXd curvature(const SlopedFunction& function, const Eigen::VectorXd& at);

} // namespace inkturn
