#pragma once

#include "exchange/picture/orientation.hpp"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Decoded pixels, row by row from the top: grey, or red, green and blue.
struct JpegPixels {
    std::size_t width = 0;
    std::size_t height = 0;
    std::size_t channels = 3; ///< 1 or 3
    std::vector<std::uint8_t> bytes;
    Orientation orientation = Orientation::as_stored; ///< what is to be done before they are shown
};

/// Of a JPEG that read_picture() accepted, in grey if `channels` is 1, its sides divided by `divisor` (1, 2,
/// 4 or 8), rounded up. Throws Error if the decoder refuses, as it does for inks of print.
JpegPixels jpeg_pixels(std::string_view bytes, std::size_t channels, unsigned divisor);

/// A JPEG file of these pixels; their orientation is not stated in it. Throws Error if the encoder refuses.
std::string jpeg_of(const JpegPixels& pixels);

} // namespace inkturn
