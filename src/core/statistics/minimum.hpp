#pragma once

#include "dense.hpp"

#include "inkturn/base/how_far.hpp"

#include <functional>

namespace inkturn {

struct Sloped {
    double value;
    dense::VectorXd slope;
    dense::VectorXd curved; ///< a guess at its second derivatives, each above 0
};
using SlopedFunction = std::function<Sloped(const dense::VectorXd&)>;

/// Where a function is least, and how it bends there.
struct Minimum {
    dense::VectorXd at;
    dense::MatrixXd inverse; ///< about that of the second derivatives
};

/// The minimum of a smooth function that rises in all directions: by quasi-Newton steps (BFGS with few steps
/// kept: Nocedal & Wright 2006, chapter 7.2) from the guess where it stands, until another would lower it by
/// less than `least_gain` or than its own precision. Throws Error where it does not get there. How far it is
/// goes by the logarithm of what the next step promises.
Minimum minimum(const SlopedFunction& function, dense::VectorXd start, double least_gain,
                const HowFar& told = {});

} // namespace inkturn
