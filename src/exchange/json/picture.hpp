#pragma once

#include "inkturn/paper/picture.hpp"

#include <string>
#include <vector>

namespace inkturn {

std::string json_of(const std::vector<PictureOnFile>& pictures);

} // namespace inkturn
