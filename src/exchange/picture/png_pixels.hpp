#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What the header of a PNG file says of its pixels.
struct PngSize {
    std::uint32_t width;
    std::uint32_t height;
    unsigned depth;     ///< bits of a sample
    unsigned colour;    ///< type
    unsigned interlace; ///< 0 none, 1 in seven passes
};

/// The bytes of all pixels, packed as they are compressed; nothing for a type or interlacing that PNG does
/// not have.
std::optional<std::uint64_t> packed_bytes(const PngSize& size);

/// Compressed pixels without what goes beyond these many packed bytes, or beyond the end of the stream;
/// nothing where nothing does, or the stream is damaged. Takes no more memory than the result.
std::optional<std::string> without_surplus(const std::vector<std::string_view>& compressed,
                                           std::uint64_t packed);

} // namespace inkturn
