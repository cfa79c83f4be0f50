#pragma once

#include <string>

namespace inkturn {

/// What --version prints: the program, the layout of its stores, and the libraries that it runs with.
std::string version_text();

} // namespace inkturn
