#pragma once

#include "inkturn/grades/boundaries.hpp"
#include "inkturn/grades/uniform_mark.hpp"
#include "inkturn/store/boundary_sets.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const std::vector<BoundarySetOnFile>& sets);
std::string json_of_grades(const std::vector<GradeBoundary>& grades);
/// A raw mark under a set and the uniform mark it stands for, out of the uniform maximum if that is known.
std::string json_of_scaled(const BoundarySet& set, const ScalePoint& mark,
                           std::optional<Marks> uniform_total);

} // namespace inkturn
