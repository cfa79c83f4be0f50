#pragma once

#include "inkturn/grades/boundaries.hpp"

#include <string>
#include <utility>
#include <vector>

namespace inkturn::test {

inline BoundarySet set_of(const std::string& name, int total,
                          const std::vector<std::pair<std::string, int>>& grades,
                          const std::string& subject = "pure") {
    BoundarySet set{name, subject, Marks(total), {}};
    for (const auto& [grade, mark] : grades)
        set.grades.push_back({grade, Marks(mark)});
    return set;
}

} // namespace inkturn::test
