#pragma once

#include "inkturn/grades/boundaries.hpp"

#include <optional>
#include <vector>

namespace inkturn {

/// A raw mark and the uniform mark it stands for.
struct ScalePoint {
    Marks raw;
    Marks uniform;
};

/// Scales raw marks to uniform marks, linearly between points; made by uniform_scale().
using UniformScale = std::vector<ScalePoint>; ///< raw marks ascend, uniform marks don't fall

/// The scale through 0, a set's boundaries with the uniform marks given for them (one per grade, from the top
/// down) and, if the uniform maximum is given, the set's cap, from which on every mark gets it: the total
/// where the set states none. Throws Error unless there is one uniform mark per grade, or if they don't fall,
/// are below 0 or not below the maximum, or a maximum is given although the top boundary is the total.
UniformScale uniform_scale(const BoundarySet& set, const std::vector<Marks>& uniform,
                           std::optional<Marks> uniform_total = {});

/// The uniform mark, a half rounded up. Throws Error where the raw mark lies below or above the scale.
Marks scaled(const UniformScale& scale, Marks raw);

/// The least raw mark that brings the uniform mark; nothing where none on the scale does.
std::optional<Marks> raw_for(const UniformScale& scale, Marks uniform);

} // namespace inkturn
