#pragma once

#include "inkturn/statistics/class_figures.hpp"
#include "inkturn/statistics/comparison.hpp"

#include <string>

namespace inkturn {

/// What is undefined is null.
std::string json_of(const Side& a, const Side& b, const Comparison& comparison, WhichSitting which);
std::string json_of(const Side& a, const ClosedClassFigures& b, const Comparison& comparison,
                    WhichSitting which);

} // namespace inkturn
