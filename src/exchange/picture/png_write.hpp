#pragma once

#include "inkturn/printed/raster.hpp"

#include <string>

namespace inkturn {

/// A PNG file of sixteen greys, which print needs no more of, for a picture that has pixels. Throws Error
/// where libpng refuses, as it does at a size above its limits.
std::string png_of(const Raster& raster);

} // namespace inkturn
