#pragma once

#include "exchange/picture/raster.hpp"
#include "inkturn/paper/picture.hpp"

#include <string>

namespace inkturn {

/// A PNG file of sixteen greys, enough for print, for a picture that has pixels. Throws Error if libpng
/// refuses, as it does at a size above its limits.
std::string png_of(const Raster& raster);

/// The same as a picture to keep. Throws Error as read_picture() does where it is above PictureLimits.
Picture png_picture(const Raster& raster);

} // namespace inkturn
