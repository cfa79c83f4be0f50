#pragma once

#include "inkturn/grades/award.hpp"
#include "inkturn/paper/paper.hpp"

#include <memory>
#include <string>
#include <vector>

namespace inkturn {

/// The awards on file, each component with the papers that belong to it.
std::string json_of(const std::vector<Award>& awards,
                    const std::vector<std::shared_ptr<const Paper>>& papers);

} // namespace inkturn
