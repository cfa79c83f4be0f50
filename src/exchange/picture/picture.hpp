#pragma once

#include "inkturn/base/error.hpp"
#include "inkturn/paper/picture.hpp"

#include <cstdint>
#include <iosfwd>
#include <string>
#include <string_view>

namespace inkturn {

/// The most that is taken, each included.
struct PictureLimits {
    std::uint64_t bytes = 12'000'000;  ///< of the file
    std::uint64_t pixels = 50'000'000; ///< width times height
    std::uint32_t side = 20'000;       ///< pixels, for width and height each

    /// Throws Error where a picture of this size is above the limits.
    void check_pixels(std::uint32_t width, std::uint32_t height) const;
};

/// A picture that is cut short or damaged; `found` says what shows it.
class DamagedPicture : public Error {
  public:
    explicit DamagedPicture(const std::string& found);
};

/// Takes a picture in from a PNG or JPEG file, recognised by its bytes. The compressed pixels are kept as
/// they are, once they have been decoded to their end. Of all else only what a browser needs to show them is
/// kept: of Exif the orientation; of colour the gamma, chromaticities and sRGB of PNG and the Adobe segment
/// of JPEG. Thus places, dates, names of devices, comments, thumbnails, colour profiles, further pictures and
/// frames, and what follows the picture's end are gone. What is kept is read again to the same bytes.
///
/// Throws Error for other files, for what is above the limits (told before memory is taken for the pixels)
/// and for kinds of JPEG that browsers don't show (arithmetic coding, lossless, 12 bits); DamagedPicture
/// where pixels are missing, the decoder of JPEG so much as warns, or the checksum of any chunk of PNG is
/// wrong.
Picture read_picture(std::string_view bytes, const PictureLimits& limits = {});

/// The same, from where the stream is to its end. Little more than the most bytes is read, none where the
/// stream can tell that there are more.
Picture read_picture(std::istream& in, const PictureLimits& limits = {});

} // namespace inkturn
