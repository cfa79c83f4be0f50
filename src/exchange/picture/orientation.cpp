#include "exchange/picture/orientation.hpp"

#include "exchange/picture/octets.hpp"

#include <algorithm>
#include <cstddef>

namespace inkturn {
namespace {

constexpr std::uint32_t orientation_tag = 0x0112;
constexpr std::uint32_t short_type = 3;
constexpr std::size_t tiff_header_size = 8;
constexpr std::size_t entry_size = 12;

/// The numbers of a TIFF block, in the order of bytes that it states.
class TiffBlock {
  public:
    explicit TiffBlock(std::string_view bytes) : bytes_(bytes), low_byte_first_(begins_with(bytes, "II")) {}

    bool is_tiff() const { return (low_byte_first_ || begins_with(bytes_, "MM")) && number(2, 2) == 42; }

    /// 0 where the block ends before it.
    std::uint32_t number(std::size_t at, std::size_t size) const {
        if (at > bytes_.size() || bytes_.size() - at < size)
            return 0;
        std::string bytes(bytes_.substr(at, size));
        if (low_byte_first_)
            std::reverse(bytes.begin(), bytes.end());
        return big_endian(bytes);
    }

  private:
    std::string_view bytes_;
    bool low_byte_first_;
};

Orientation orientation_of_entry(const TiffBlock& tiff, std::size_t entry) {
    const std::uint32_t value = tiff.number(entry + 8, 2);
    const bool is_one_short = tiff.number(entry + 2, 2) == short_type && tiff.number(entry + 4, 4) == 1;
    return is_one_short && value >= 1 && value <= 8 ? static_cast<Orientation>(value)
                                                    : Orientation::as_stored;
}

} // namespace

bool swaps_sides(Orientation orientation) {
    return orientation >= Orientation::transposed;
}

Orientation orientation_in(std::string_view exif) {
    const TiffBlock tiff(exif);
    const std::size_t directory = tiff.number(4, 4);
    if (!tiff.is_tiff() || directory < tiff_header_size || directory >= exif.size())
        return Orientation::as_stored;
    const std::size_t count = tiff.number(directory, 2);
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t entry = directory + 2 + i * entry_size;
        if (tiff.number(entry, 2) == orientation_tag)
            return orientation_of_entry(tiff, entry);
    }
    return Orientation::as_stored;
}

std::string exif_of(Orientation orientation) {
    const auto value = static_cast<std::uint32_t>(orientation);
    return "MM" + big_endian_bytes(42, 2) + big_endian_bytes(tiff_header_size, 4) // where the directory is
           + big_endian_bytes(1, 2)                                               // its entries
           + big_endian_bytes(orientation_tag, 2) + big_endian_bytes(short_type, 2) + big_endian_bytes(1, 4) +
           big_endian_bytes(value, 2) + big_endian_bytes(0, 2) // a short fills half of its place
           + big_endian_bytes(0, 4);                           // no directory follows
}

} // namespace inkturn
