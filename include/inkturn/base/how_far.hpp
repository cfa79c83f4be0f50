#pragma once

#include <cstddef>
#include <functional>

namespace inkturn {

/// Told now and then how far long work has got, as a share from 0 to 1 that never falls. May be empty.
using HowFar = std::function<void(double share)>;

/// Of a part of the work, which takes the whole from one share to another.
HowFar part_of(const HowFar& whole, double from, double to);

/// That so many of all pieces, at least one, are done.
void tell(const HowFar& told, std::size_t done, std::size_t pieces);

} // namespace inkturn
