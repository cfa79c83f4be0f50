#include "inkturn/printed/raster.hpp"

#include <algorithm>
#include <cmath>

namespace inkturn {
namespace {

/// A length in points as pixels, from nothing to all that there are.
std::size_t pixels(double points, double pixels_per_point, std::size_t most) {
    const double length = std::round(points * pixels_per_point);
    return length > 0 ? static_cast<std::size_t>(std::min(length, static_cast<double>(most))) : 0;
}

} // namespace

Raster blank_raster(std::size_t width, std::size_t height) {
    return {width, height, std::vector<std::uint8_t>(width * height, 255)};
}

Raster strip_of(const Raster& page, const PageStrip& strip, double pixels_per_point) {
    const std::size_t left = pixels(strip.left, pixels_per_point, page.width);
    const std::size_t right =
        strip.right > 0 ? pixels(strip.right, pixels_per_point, page.width) : page.width;
    const std::size_t top = pixels(strip.top, pixels_per_point, page.height);
    const std::size_t bottom = pixels(strip.bottom, pixels_per_point, page.height);
    if (right <= left || bottom <= top)
        return {};
    Raster raster{right - left, bottom - top, {}};
    raster.pixels.reserve(raster.width * raster.height);
    for (std::size_t y = top; y < bottom; ++y)
        raster.pixels.insert(raster.pixels.end(), page.row(y) + left, page.row(y) + right);
    return raster;
}

} // namespace inkturn
