#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/store/store.hpp"

#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const Paper& paper);
std::string json_of(const std::vector<PaperOnFile>& papers);

} // namespace inkturn
