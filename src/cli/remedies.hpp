#pragma once

#include "inkturn/base/error.hpp"
#include "inkturn/base/problem.hpp"

#include <string>

namespace inkturn {

/// The message with what to type next, if something helps.
std::string worded(const Error& error);
std::string worded(const Problem& problem);

} // namespace inkturn
