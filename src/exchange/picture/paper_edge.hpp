#pragma once

#include "exchange/picture/raster.hpp"

#include <array>
#include <optional>

namespace inkturn {

/// A place in a picture, in pixels from its top left corner.
struct PicturePoint {
    double x;
    double y;
};

/// The corners of a sheet of paper: top left, top right, bottom right, bottom left.
using PaperCorners = std::array<PicturePoint, 4>;

/// Where a sheet lies in a grey picture, if that is certain: it is much brighter than what is around it, all
/// four of its edges are seen, each straight, opposite ones nearly parallel and neighbours nearly square,
/// the sheet turned by no more than a tenth of a right angle, filled by paper, and it takes a quarter of the
/// picture at least.
std::optional<PaperCorners> paper_corners(const Raster& grey);

} // namespace inkturn
