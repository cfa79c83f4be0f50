#pragma once

#include "inkturn/desk/script.hpp"

#include <string>

namespace inkturn {

std::string json_of(const Script& script);

} // namespace inkturn
