#pragma once

#include <random>

namespace inkturn::test {

/// From the least to the most, both included; not quite evenly, but for one seed the same everywhere.
inline int pick(std::mt19937& dice, int least, int most) {
    return least + static_cast<int>(dice() % static_cast<unsigned>(most - least + 1));
}

} // namespace inkturn::test
