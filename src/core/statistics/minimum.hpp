#pragma once

#include <Eigen/Dense>

#include <functional>

namespace inkturn {

struct Sloped {
    double value;
    Eigen::VectorXd slope;
};
using SlopedFunction = std::function<Sloped(const Eigen::VectorXd&)>;

/// Where a function is least, and how it bends there.
struct Minimum {
    Eigen::VectorXd at;
    Eigen::MatrixXd inverse; ///< about that of the second derivatives
};

/// The minimum of a smooth function that rises in all directions: by quasi-Newton steps (BFGS: Nocedal &
/// Wright 2006, algorithm 6.1), until another would lower it by less than `least_gain` or than its own
/// precision. `curved` guesses the second derivatives, each above 0. Throws Error where it does not get
/// there.
Minimum minimum(const SlopedFunction& function, Eigen::VectorXd start, const Eigen::VectorXd& curved,
                double least_gain);

} // namespace inkturn
