#pragma once

#include "exchange/picture/picture.hpp"

#include <string_view>

namespace inkturn {

/// Whether the bytes start like a JPEG file.
bool is_jpeg(std::string_view bytes);

/// read_picture() for bytes for which is_jpeg() holds.
Picture read_jpeg(std::string_view bytes, const PictureLimits& limits);

} // namespace inkturn
