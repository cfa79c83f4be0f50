#include "exchange/picture/picture.hpp"

#include "exchange/picture/jpeg.hpp"
#include "exchange/picture/octets.hpp"
#include "exchange/picture/png.hpp"

#include <algorithm>
#include <istream>
#include <optional>

namespace inkturn {
namespace {

constexpr std::size_t bytes_at_once = 65'536;

/// `12 MB`, `12.1 MB`: tenths of a megabyte, rounded up.
std::string megabytes(std::uint64_t bytes) {
    const std::uint64_t tenths = bytes / 100'000 + (bytes % 100'000 != 0);
    return std::to_string(tenths / 10) + (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10)) + " MB";
}

[[noreturn]] void refuse_bytes(const std::string& size, const PictureLimits& limits) {
    throw Error("the file has " + size + ", and a picture may have at most " + megabytes(limits.bytes) +
                ": save it as JPEG, or make it smaller");
}

/// How many bytes are left in the stream, if that is known without reading them.
std::optional<std::uint64_t> bytes_left(std::istream& in) {
    const std::istream::pos_type here = in.tellg();
    in.seekg(0, std::ios::end);
    const std::istream::pos_type end = in.tellg();
    in.clear();
    if (here == std::istream::pos_type(-1) || end == std::istream::pos_type(-1))
        return std::nullopt;
    in.seekg(here);
    return static_cast<std::uint64_t>(std::max<std::streamoff>(end - here, 0));
}

std::string bytes_of(std::istream& in, const PictureLimits& limits) {
    if (in.good())
        if (const auto size = bytes_left(in))
            limits.check_bytes(*size);
    std::string bytes;
    while (in.good()) {
        const std::size_t size = bytes.size();
        bytes.resize(size + bytes_at_once);
        in.read(bytes.data() + size, static_cast<std::streamsize>(bytes_at_once));
        bytes.resize(size + static_cast<std::size_t>(in.gcount()));
        if (bytes.size() > limits.bytes)
            refuse_bytes("more than " + megabytes(limits.bytes), limits);
    }
    if (!in.eof() || in.bad())
        throw Error("the file could not be read to its end; use a fresh copy");
    return bytes;
}

bool looks_like_text(std::string_view head) {
    if (begins_with(head, "\xFF\xFE") || begins_with(head, "\xFE\xFF"))
        return true; // UTF-16
    return std::none_of(head.begin(), head.end(), [](char c) {
        return (static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0x7F;
    });
}

/// The brand of a file in ISO's container for media, such as `heic`; empty if it isn't one.
std::string_view media_brand(std::string_view head) {
    return head.size() >= 12 && head.substr(4, 4) == "ftyp" ? head.substr(8, 4) : std::string_view();
}

/// What a file that is neither PNG nor JPEG looks like; empty if that isn't known.
std::string likeness(std::string_view head) {
    const std::string_view brand = media_brand(head);
    for (const std::string_view heic : {"heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1"})
        if (brand == heic)
            return "an HEIC picture";
    if (brand == "avif" || brand == "avis")
        return "an AVIF picture";
    if (!brand.empty())
        return "a video";
    if (begins_with(head, "%PDF-"))
        return "a PDF document";
    if (begins_with(head, "GIF87a") || begins_with(head, "GIF89a"))
        return "a GIF picture";
    if (begins_with(head, "RIFF") && head.substr(std::min<std::size_t>(8, head.size()), 4) == "WEBP")
        return "a WebP picture";
    if (begins_with(head, std::string_view("II*\0", 4)) || begins_with(head, std::string_view("MM\0*", 4)))
        return "a TIFF picture";
    if (begins_with(head, "PK\x03\x04"))
        return "a zip archive or an office document";
    return looks_like_text(head) ? "a text file" : "";
}

[[noreturn]] void refuse_kind(std::string_view bytes) {
    constexpr std::size_t enough = 512;
    constexpr const char* remedy = ": save the picture as JPEG or PNG and use that file";
    if (bytes.empty())
        throw Error(std::string("the file is empty") + remedy);
    const std::string like = likeness(bytes.substr(0, enough));
    throw Error((like.empty() ? "this is not a JPEG or PNG" : "this is " + like + ", not a JPEG or PNG") +
                remedy);
}

} // namespace

void PictureLimits::check_pixels(std::uint32_t width, std::uint32_t height) const {
    if (width <= side && height <= side && std::uint64_t{width} * height <= pixels)
        return;
    throw Error("the picture is " + std::to_string(width) + " by " + std::to_string(height) +
                " pixels, and it may have at most " + std::to_string(side) + " on each side and " +
                std::to_string(pixels) + " in all: make it smaller");
}

void PictureLimits::check_bytes(std::uint64_t size) const {
    if (size > bytes)
        refuse_bytes(megabytes(size), *this);
}

DamagedPicture::DamagedPicture(const std::string& found)
    : Error("the picture is damaged or cut short (" + found +
            "): use a fresh copy, or open it and save it as JPEG or PNG again") {}

Picture read_picture(std::string_view bytes, const PictureLimits& limits) {
    limits.check_bytes(bytes.size());
    if (is_png(bytes))
        return read_png(bytes, limits);
    if (is_jpeg(bytes))
        return read_jpeg(bytes, limits);
    refuse_kind(bytes);
}

Picture read_picture(std::istream& in, const PictureLimits& limits) {
    return read_picture(std::string_view(bytes_of(in, limits)), limits);
}

} // namespace inkturn
