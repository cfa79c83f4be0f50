#pragma once

#include "cli/defaults.hpp"

#include <string>

namespace inkturn {

/// Whether what the file of defaults states for its candidate may count for this one: false where it names
/// another, or nobody and this is not me.
bool may_be_for(const Defaults& defaults, const std::string& code);

} // namespace inkturn
