#pragma once

#include "inkturn/base/day.hpp"

namespace inkturn::test {

constexpr Day monday{date::year{2026} / date::November / 2};

/// As many days after the Monday.
inline Day day(int distance) {
    return monday + Days{distance};
}

} // namespace inkturn::test
