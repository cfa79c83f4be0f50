#include "exchange/picture/photograph.hpp"

#include "exchange/picture/jpeg_pixels.hpp"
#include "exchange/picture/paper_edge.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace inkturn {
namespace {

constexpr unsigned looked_at_by = 4;  ///< the sides are divided by it to find the paper's edge
constexpr double edge_left_out = 1.5; ///< pixels of what is looked at: the paper's edge is blurred there

double distance(const PicturePoint& a, const PicturePoint& b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

PicturePoint between(const PicturePoint& a, const PicturePoint& b, double share) {
    return {a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
}

/// A place of the sheet, 0 to 1 across and down.
PicturePoint place_on(const PaperCorners& corners, double across, double down) {
    return between(between(corners[0], corners[1], across), between(corners[3], corners[2], across), down);
}

/// Where what is shown at a place, 0 to 1 across and down, is stored; CIPA DC-008, tag 0x0112.
std::pair<double, double> stored_place(Orientation orientation, double across, double down) {
    switch (orientation) {
    case Orientation::as_stored:
        break;
    case Orientation::left_to_right:
        return {1 - across, down};
    case Orientation::half_turn:
        return {1 - across, 1 - down};
    case Orientation::top_to_bottom:
        return {across, 1 - down};
    case Orientation::transposed:
        return {down, across};
    case Orientation::quarter_turn:
        return {down, 1 - across};
    case Orientation::transverse:
        return {1 - down, 1 - across};
    case Orientation::three_quarter_turn:
        return {1 - down, across};
    }
    return {across, down};
}

/// The corners at full size, drawn in a little.
PaperCorners drawn_in(const PaperCorners& found) {
    PaperCorners corners = found;
    const PicturePoint middle = place_on(found, 0.5, 0.5);
    for (PicturePoint& corner : corners) {
        corner.x =
            (corner.x + (corner.x < middle.x ? edge_left_out : -edge_left_out) + 0.5) * looked_at_by - 0.5;
        corner.y =
            (corner.y + (corner.y < middle.y ? edge_left_out : -edge_left_out) + 0.5) * looked_at_by - 0.5;
    }
    return corners;
}

/// Of the four pixels around a place, by how near they are.
std::uint8_t mixed(const JpegPixels& from, const PicturePoint& at, std::size_t channel) {
    const double x = std::clamp(at.x, 0.0, static_cast<double>(from.width - 1));
    const double y = std::clamp(at.y, 0.0, static_cast<double>(from.height - 1));
    const auto left = static_cast<std::size_t>(x);
    const auto top = static_cast<std::size_t>(y);
    const std::size_t right = std::min(left + 1, from.width - 1);
    const std::size_t bottom = std::min(top + 1, from.height - 1);
    const double over = x - static_cast<double>(left);
    const double down = y - static_cast<double>(top);
    const auto pixel = [&](std::size_t column, std::size_t row) {
        return static_cast<double>(from.bytes[(row * from.width + column) * from.channels + channel]);
    };
    const double above = pixel(left, top) * (1 - over) + pixel(right, top) * over;
    const double below = pixel(left, bottom) * (1 - over) + pixel(right, bottom) * over;
    return static_cast<std::uint8_t>(std::lround(above * (1 - down) + below * down));
}

/// The sheet alone, upright.
JpegPixels sheet_of(const JpegPixels& from, const PaperCorners& corners) {
    JpegPixels sheet;
    sheet.channels = from.channels;
    const double width = (distance(corners[0], corners[1]) + distance(corners[3], corners[2])) / 2;
    const double height = (distance(corners[0], corners[3]) + distance(corners[1], corners[2])) / 2;
    sheet.width = static_cast<std::size_t>(std::lround(width)) + 1;
    sheet.height = static_cast<std::size_t>(std::lround(height)) + 1;
    if (swaps_sides(from.orientation))
        std::swap(sheet.width, sheet.height);
    sheet.bytes.reserve(sheet.width * sheet.height * sheet.channels);
    for (std::size_t y = 0; y < sheet.height; ++y)
        for (std::size_t x = 0; x < sheet.width; ++x) {
            const auto [across, down] =
                stored_place(from.orientation, static_cast<double>(x) / static_cast<double>(sheet.width - 1),
                             static_cast<double>(y) / static_cast<double>(sheet.height - 1));
            const PicturePoint at = place_on(corners, across, down);
            for (std::size_t channel = 0; channel < sheet.channels; ++channel)
                sheet.bytes.push_back(mixed(from, at, channel));
        }
    return sheet;
}

/// Nothing where the pixels can't be worked on, too, as those of inks of print.
std::optional<PaperCorners> corners_in(const Picture& picture) {
    try {
        JpegPixels small = jpeg_pixels(picture.bytes, 1, looked_at_by);
        const auto found = paper_corners({small.width, small.height, std::move(small.bytes)});
        return found ? std::optional(drawn_in(*found)) : std::nullopt;
    } catch (const Error&) {
        return std::nullopt;
    }
}

} // namespace

Photograph read_photograph(std::string_view bytes) {
    Picture picture = read_picture(bytes);
    if (picture.kind != PictureKind::jpeg)
        return {std::move(picture)};
    const auto corners = corners_in(picture);
    if (!corners)
        return {std::move(picture)};
    const JpegPixels sheet = sheet_of(jpeg_pixels(picture.bytes, 3, 1), *corners);
    return {read_picture(jpeg_of(sheet)), true};
}

} // namespace inkturn
