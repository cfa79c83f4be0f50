#pragma once

#include "inkturn/base/error.hpp"

#include <string>

namespace inkturn {

/// The error's message with what to type next, where something helps.
std::string worded(const Error& error);

} // namespace inkturn
