#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace inkturn {

/// What to do with the pixels of a picture before they are shown, as Exif numbers it (CIPA DC-008,
/// tag 0x0112). Turns are clockwise.
enum class Orientation : std::uint8_t {
    as_stored = 1,
    left_to_right = 2, ///< mirrored
    half_turn = 3,
    top_to_bottom = 4, ///< mirrored
    transposed = 5,    ///< rows become columns
    quarter_turn = 6,
    transverse = 7, ///< rows become columns, from the last to the first both ways
    three_quarter_turn = 8,
};

/// Whether stored rows are shown as columns.
bool swaps_sides(Orientation orientation);

/// What the body of Exif (a TIFF header and its first directory) states; as_stored if it states nothing
/// we understand.
Orientation orientation_in(std::string_view exif);

/// The body of Exif that states an orientation and nothing else.
std::string exif_of(Orientation orientation);

} // namespace inkturn
