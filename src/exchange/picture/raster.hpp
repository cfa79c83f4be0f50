#pragma once

#include "inkturn/printed/page.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace inkturn {

/// A grey picture: one byte per pixel, 0 (black) to 255 (white), row by row from the top, without gaps.
struct Raster {
    std::size_t width = 0; ///< pixels
    std::size_t height = 0;
    std::vector<std::uint8_t> pixels; ///< width times height

    const std::uint8_t* row(std::size_t y) const { return pixels.data() + y * width; }
    std::uint8_t* row(std::size_t y) { return pixels.data() + y * width; }
};

/// Anything darker counts as ink; white paper, faint shading and noise do not.
constexpr std::uint8_t ink_below = 224;

/// Whether any of these pixels side by side is ink.
bool has_ink(const std::uint8_t* pixels, std::size_t count);

/// The first of them that is; `count` where none is.
std::size_t first_ink(const std::uint8_t* pixels, std::size_t count);

/// What comes after the last of them that is; 0 where none is.
std::size_t end_of_ink(const std::uint8_t* pixels, std::size_t count);

/// A white picture.
Raster blank_raster(std::size_t width, std::size_t height);

/// The strip with its top and bottom moved to rows without ink where they would cut through some, as far as a
/// line of print. What runs through all rows there, such as a frame's side, is no ink.
PageStrip cut_between_ink(const Raster& page, const PageStrip& strip, PixelsPerPoint scale);

/// Copies the strip of a page drawn at this scale, as far as the page reaches, over what was there.
void copy_strip(const Raster& page, const PageStrip& strip, PixelsPerPoint scale, Raster& to);

} // namespace inkturn
