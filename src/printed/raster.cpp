#include "inkturn/printed/raster.hpp"

#include <algorithm>
#include <cmath>

namespace inkturn {
namespace {

/// A length in pixels, from nothing to all that there are.
std::size_t pixels(Points length, PixelsPerPoint scale, std::size_t most) {
    const double count = std::round((length * scale).value());
    return count > 0 ? static_cast<std::size_t>(std::min(count, static_cast<double>(most))) : 0;
}

} // namespace

Raster blank_raster(std::size_t width, std::size_t height) {
    return {width, height, std::vector<std::uint8_t>(width * height, 255)};
}

Raster strip_of(const Raster& page, const PageStrip& strip, PixelsPerPoint scale) {
    const std::size_t left = pixels(strip.left, scale, page.width);
    const std::size_t right = pixels(strip.right, scale, page.width);
    const std::size_t top = pixels(strip.top, scale, page.height);
    const std::size_t bottom = pixels(strip.bottom, scale, page.height);
    if (right <= left || bottom <= top)
        return {};
    Raster raster{right - left, bottom - top, {}};
    raster.pixels.reserve(raster.width * raster.height);
    for (std::size_t y = top; y < bottom; ++y)
        raster.pixels.insert(raster.pixels.end(), page.row(y) + left, page.row(y) + right);
    return raster;
}

} // namespace inkturn
