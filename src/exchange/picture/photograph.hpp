#pragma once

#include "exchange/picture/picture.hpp"

#include <string_view>

namespace inkturn {

/// A photograph as it is kept.
struct Photograph {
    Picture picture;
    bool trimmed = false; ///< to the edge of the paper, and set straight
};

/// Reads a photograph. Where it is certain where the sheet of paper lies, see paper_corners(), it is trimmed
/// to it, set straight and turned upright, as the file states it; else its pixels stay as they are, and are
/// shown turned. Throws Error as read_picture() does.
Photograph read_photograph(std::string_view bytes);

} // namespace inkturn
