#pragma once

#include "exchange/picture/picture.hpp"

#include <string_view>

namespace inkturn {

/// Whether the bytes start like a PNG file.
bool is_png(std::string_view bytes);

/// read_picture() for bytes for which is_png() holds.
Picture read_png(std::string_view bytes, const PictureLimits& limits);

} // namespace inkturn
