#include "exchange/picture/raster.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

namespace inkturn {
namespace {

/// A length in pixels, from nothing to all that there are.
std::size_t pixels(Points length, PixelsPerPoint scale, std::size_t most) {
    const double count = std::round((length * scale).value());
    return count > 0 ? static_cast<std::size_t>(std::min(count, static_cast<double>(most))) : 0;
}

/// The row nearest to this one that has no ink between two columns; the same if there is none near.
std::size_t nearest_blank_row(const Raster& page, std::size_t row, std::size_t left, std::size_t right,
                              std::size_t reach) {
    if (!has_ink(page.row(row) + left, right - left))
        return row;
    const std::size_t first = row - std::min(row, reach);
    const std::size_t end = std::min(page.height, row + reach + 1);
    std::vector<std::uint8_t> is_rule(page.width, 1);
    for (std::size_t y = first; y < end; ++y)
        for (std::size_t x = left; x < right; ++x)
            is_rule[x] = is_rule[x] & (page.row(y)[x] < ink_below ? 1 : 0);
    const auto is_blank = [&](std::size_t y) {
        if (!has_ink(page.row(y) + left, right - left))
            return true;
        for (std::size_t x = left; x < right; ++x)
            if (page.row(y)[x] < ink_below && is_rule[x] == 0)
                return false;
        return true;
    };
    for (std::size_t away = 0; away <= reach; ++away) {
        if (row >= away && row - away < page.height && is_blank(row - away))
            return row - away;
        if (row + away < end && is_blank(row + away))
            return row + away;
    }
    return row;
}

constexpr std::uint64_t white = 0xE0E0E0E0E0E0E0E0; // the bits that all of ink_below's betters have
static_assert(ink_below == (white & 0xFF));
constexpr std::size_t step = sizeof white; // pixels looked at together

/// What eight pixels have of those bits.
std::uint64_t eight_from(const std::uint8_t* pixels) {
    std::uint64_t eight = 0;
    std::memcpy(&eight, pixels, sizeof eight);
    return eight & white;
}

} // namespace

bool has_ink(const std::uint8_t* pixels, std::size_t count) {
    std::uint64_t all = white;
    std::size_t i = 0;
    for (; i + step <= count; i += step)
        all &= eight_from(pixels + i);
    bool is_ink = all != white;
    for (; i < count; ++i)
        is_ink = is_ink || pixels[i] < ink_below;
    return is_ink;
}

std::size_t first_ink(const std::uint8_t* pixels, std::size_t count) {
    std::size_t i = 0;
    while (i + step <= count && eight_from(pixels + i) == white)
        i += step;
    while (i < count && pixels[i] >= ink_below)
        ++i;
    return i;
}

std::size_t end_of_ink(const std::uint8_t* pixels, std::size_t count) {
    while (count >= step && eight_from(pixels + count - step) == white)
        count -= step;
    while (count > 0 && pixels[count - 1] >= ink_below)
        --count;
    return count;
}

PageStrip cut_between_ink(const Raster& page, const PageStrip& strip, PixelsPerPoint scale) {
    constexpr Points reach{14};
    const std::size_t left = pixels(strip.left, scale, page.width);
    const std::size_t right = pixels(strip.right, scale, page.width);
    const std::size_t most = pixels(reach, scale, page.height);
    const auto moved = [&](Points edge) {
        const std::size_t row = pixels(edge, scale, page.height);
        if (row == 0 || row >= page.height)
            return edge;
        const std::size_t blank = nearest_blank_row(page, row, left, right, most);
        return blank == row ? edge : Pixels(static_cast<double>(blank)) / scale;
    };
    return {strip.page, moved(strip.top), moved(strip.bottom), strip.left, strip.right};
}

Raster blank_raster(std::size_t width, std::size_t height) {
    return {width, height, std::vector<std::uint8_t>(width * height, 255)};
}

void copy_strip(const Raster& page, const PageStrip& strip, PixelsPerPoint scale, Raster& to) {
    const std::size_t left = pixels(strip.left, scale, page.width);
    const std::size_t right = std::max(left, pixels(strip.right, scale, page.width));
    const std::size_t top = pixels(strip.top, scale, page.height);
    const std::size_t bottom = std::max(top, pixels(strip.bottom, scale, page.height));
    to.width = right - left;
    to.height = bottom - top;
    to.pixels.clear();
    to.pixels.reserve(to.width * to.height);
    for (std::size_t y = top; y < bottom; ++y)
        to.pixels.insert(to.pixels.end(), page.row(y) + left, page.row(y) + right);
}

} // namespace inkturn
