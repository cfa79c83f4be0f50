#pragma once

#include "inkturn/printed/paper.hpp"

#include <cstddef>
#include <optional>
#include <string>

namespace inkturn {

/// What became of a printed paper that was read.
struct PaperRead {
    std::string id; ///< under which it was to be kept
    std::size_t pages;
    std::optional<std::size_t> pictures_kept; ///< nothing where the paper was not kept
};

/// With what was found in it, and in its scheme where there is one.
std::string json_of(const PaperRead& read, const PrintedPaper& paper, const PrintedScheme& scheme);

} // namespace inkturn
