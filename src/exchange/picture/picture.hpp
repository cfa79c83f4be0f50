#pragma once

#include "inkturn/base/error.hpp"
#include "inkturn/paper/picture.hpp"

#include <cstdint>
#include <iosfwd>
#include <string>
#include <string_view>

namespace inkturn {

/// The most that is accepted, inclusive.
struct PictureLimits {
    std::uint64_t bytes = 12'000'000;  ///< of the file
    std::uint64_t pixels = 50'000'000; ///< width times height
    std::uint32_t side = 20'000;       ///< pixels, for width and height each

    /// Throws Error if a picture of this size is above the limits.
    void check_pixels(std::uint32_t width, std::uint32_t height) const;
    /// The same for the bytes of its file.
    void check_bytes(std::uint64_t size) const;
};

/// A picture that is cut short or damaged; `found` says how it shows.
class DamagedPicture : public Error {
  public:
    explicit DamagedPicture(const std::string& found);
};

/// Reads a picture from a PNG or JPEG file, recognised by its bytes. The compressed pixels are kept as they
/// are, once they have been decoded to the end. Apart from them only what a browser needs to show them is
/// kept: Exif's orientation; for colour PNG's gamma, chromaticities and sRGB and JPEG's Adobe segment. So
/// places, dates, names of devices, comments, thumbnails, colour profiles, further pictures and frames, and
/// anything after the picture's end are dropped. Reading the result again gives the same bytes.
///
/// Throws Error for other files, for what is above the limits (before memory is taken for the pixels)
/// and for kinds of JPEG that browsers don't show (arithmetic coding, lossless, 12 bits); DamagedPicture
/// if pixels are missing, the JPEG decoder gives even a warning, or any PNG chunk has a wrong checksum.
Picture read_picture(std::string_view bytes, const PictureLimits& limits = {});

/// The same, from the stream's position to its end. Hardly more than the limit is read, and nothing if the
/// stream's size shows that it is above the limit.
Picture read_picture(std::istream& in, const PictureLimits& limits = {});

} // namespace inkturn
