#pragma once

#include "inkturn/store/changes.hpp"

#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const std::vector<ChangeOnFile>& changes);
std::string json_of(const ChangeOnFile& change);

} // namespace inkturn
