#pragma once

#include <string>
#include <vector>

namespace inkturn {

/// The libraries that the program runs with, each with its version: `SQLite 3.40.1`.
std::vector<std::string> library_versions();

} // namespace inkturn
