#pragma once

#include <cstddef>
#include <string>

namespace inkturn {

/// What became of the facts that were read from a file; each counts once.
struct FactsAdded {
    std::size_t added = 0;
    std::size_t completed = 0; ///< were on file and got a topic
    std::size_t replaced = 0;
    std::size_t unchanged = 0;
};

std::string json_of(const FactsAdded& counts);

} // namespace inkturn
