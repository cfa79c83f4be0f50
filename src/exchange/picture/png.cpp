#include "exchange/picture/png.hpp"

#include "exchange/picture/octets.hpp"
#include "exchange/picture/orientation.hpp"
#include "exchange/picture/png_pixels.hpp"

#include <array>
#include <csetjmp>
#include <cstddef>
#include <cstdio>
#include <cstring>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include <png.h>
#include <zlib.h>

namespace inkturn {
namespace {

constexpr std::string_view signature = "\x89PNG\r\n\x1A\n";
constexpr std::uint32_t max_chunk_bytes = 0x7FFFFFFF;
constexpr std::size_t ihdr_size = 13;

std::uint32_t checksum(std::string_view bytes) {
    return static_cast<std::uint32_t>(
        crc32(0, reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uInt>(bytes.size())));
}

std::string chunk_bytes(const std::string& type, std::string_view body) {
    const std::string summed = type + std::string(body);
    return big_endian_bytes(static_cast<std::uint32_t>(body.size()), 4) + summed +
           big_endian_bytes(checksum(summed), 4);
}

struct Chunk {
    std::string_view type;
    std::string_view body;
    std::string_view whole; ///< with length, type and checksum
};

/// Goes through a file from chunk to chunk.
class Chunks {
  public:
    explicit Chunks(std::string_view bytes) : left_(bytes.substr(signature.size())) {}

    Chunk next() {
        const std::uint32_t length = big_endian(left_.substr(0, 4));
        if (left_.size() < 12 || length > max_chunk_bytes || left_.size() - 12 < length)
            throw DamagedPicture("PNG: a chunk goes past the end of the file");
        const Chunk chunk{left_.substr(4, 4), left_.substr(8, length), left_.substr(0, length + 12)};
        if (checksum(left_.substr(4, length + 4)) != big_endian(left_.substr(length + 8, 4)))
            throw DamagedPicture("PNG: a chunk's checksum is wrong");
        left_.remove_prefix(chunk.whole.size());
        return chunk;
    }

  private:
    std::string_view left_;
};

/// Whether a decoder may skip chunks of this type.
bool is_ancillary(std::string_view type) {
    return (static_cast<unsigned char>(type[0]) & 0x20) != 0;
}

/// Whether the chunk says how colours are shown and has the right size.
bool is_colour(const Chunk& chunk) {
    return (chunk.type == "gAMA" && chunk.body.size() == 4) ||
           (chunk.type == "cHRM" && chunk.body.size() == 32) ||
           (chunk.type == "sRGB" && chunk.body.size() == 1) || chunk.type == "tRNS";
}

/// What is kept of a file.
class KeptPng {
  public:
    KeptPng(std::string_view bytes, const PictureLimits& limits) {
        Chunks chunks(bytes);
        take_header(chunks.next(), limits);
        for (Chunk next = chunks.next(); next.type != "IEND"; next = chunks.next())
            take(next);
    }

    Picture picture() const {
        const std::string exif = orientation_ == Orientation::as_stored
                                     ? std::string()
                                     : chunk_bytes("eXIf", exif_of(orientation_));
        Picture picture{PictureKind::png, width_, height_,
                        std::string(signature) + header_ + exif + rest_ + pixels() + chunk_bytes("IEND", "")};
        if (swaps_sides(orientation_))
            std::swap(picture.width, picture.height);
        return picture;
    }

  private:
    void take_header(const Chunk& from, const PictureLimits& limits) {
        if (from.type != "IHDR" || from.body.size() != ihdr_size)
            throw DamagedPicture("PNG: it does not begin with its header");
        width_ = big_endian(from.body.substr(0, 4));
        height_ = big_endian(from.body.substr(4, 4));
        if (width_ == 0 || height_ == 0)
            throw DamagedPicture("PNG: a header without a size");
        limits.check_pixels(width_, height_);
        header_ = from.whole;
        const auto octet = [&](std::size_t place) { return static_cast<unsigned char>(from.body[place]); };
        packed_bytes_ = packed_bytes({width_, height_, octet(8), octet(9), octet(12)});
    }

    /// The compressed pixels, and nothing beyond them.
    std::string pixels() const {
        if (const auto pixels = packed_bytes_ ? without_surplus(compressed_, *packed_bytes_) : std::nullopt)
            return chunk_bytes("IDAT", *pixels);
        std::string chunks;
        for (const std::string_view piece : compressed_)
            chunks += chunk_bytes("IDAT", piece);
        return chunks;
    }

    void take(const Chunk& from) {
        if (from.type == "IDAT") {
            compressed_.push_back(from.body);
        } else if (from.type == "PLTE" && compressed_.empty()) {
            rest_ += from.whole;
        } else if (is_colour(from)) {
            if (compressed_.empty() && colours_.insert(from.type).second)
                rest_ += from.whole;
        } else if (from.type == "eXIf") {
            if (!has_exif_)
                orientation_ = orientation_in(from.body);
            has_exif_ = true;
        } else if (!is_ancillary(from.type)) {
            throw DamagedPicture("PNG: a chunk that is unknown or out of place");
        }
    }

    std::string header_;
    std::string rest_; ///< before the pixels
    std::vector<std::string_view> compressed_;
    std::optional<std::uint64_t> packed_bytes_;
    std::uint32_t width_ = 0;
    std::uint32_t height_ = 0;
    bool has_exif_ = false;
    std::set<std::string_view> colours_; ///< the types of those that were kept
    Orientation orientation_ = Orientation::as_stored;
};

/// libpng's state. It reports errors by a jump, so everything with a destructor lives outside run().
class PngDecoding {
  public:
    explicit PngDecoding(std::string_view bytes)
        : left_(bytes),
          png_(png_create_read_struct(PNG_LIBPNG_VER_STRING, this, leave, pass_over)),
          info_(png_ ? png_create_info_struct(png_) : nullptr) {}
    ~PngDecoding() { png_destroy_read_struct(&png_, &info_, nullptr); }
    PngDecoding(const PngDecoding&) = delete;
    PngDecoding& operator=(const PngDecoding&) = delete;

    /// Decodes the file to its end, row by row; false at an error.
    bool run() {
        if (!png_ || !info_)
            return false;
        if (setjmp(png_jmpbuf(png_)) != 0)
            return false;
        png_set_crc_action(png_, PNG_CRC_ERROR_QUIT, PNG_CRC_ERROR_QUIT);
        png_set_read_fn(png_, this, read);
        png_read_info(png_, info_);
        const int passes = png_set_interlace_handling(png_);
        png_read_update_info(png_, info_);
        row_.resize(png_get_rowbytes(png_, info_));
        for (int pass = 0; pass < passes; ++pass)
            for (png_uint_32 y = png_get_image_height(png_, info_); y > 0; --y)
                png_read_row(png_, row_.data(), nullptr);
        png_read_end(png_, nullptr);
        return true;
    }

    const char* message() const { return message_.data(); }

  private:
    [[noreturn]] static void leave(png_structp png, png_const_charp message) {
        auto* decoding = static_cast<PngDecoding*>(png_get_error_ptr(png));
        std::snprintf(decoding->message_.data(), decoding->message_.size(), "%s", message);
        png_longjmp(png, 1);
    }

    static void pass_over(png_structp /*png*/, png_const_charp /*message*/) {}

    static void read(png_structp png, png_bytep to, std::size_t size) {
        auto* decoding = static_cast<PngDecoding*>(png_get_io_ptr(png));
        if (size > decoding->left_.size())
            png_error(png, "the file ends too early");
        std::memcpy(to, decoding->left_.data(), size);
        decoding->left_.remove_prefix(size);
    }

    std::string_view left_;
    std::vector<png_byte> row_;
    std::array<char, 128> message_{"out of memory"};
    png_structp png_;
    png_infop info_;
};

void decode_png(std::string_view bytes) {
    PngDecoding decoding(bytes);
    if (!decoding.run())
        throw DamagedPicture(std::string("PNG: ") + decoding.message());
}

} // namespace

bool is_png(std::string_view bytes) {
    return begins_with(bytes, signature);
}

Picture read_png(std::string_view bytes, const PictureLimits& limits) {
    Picture picture = KeptPng(bytes, limits).picture();
    decode_png(picture.bytes);
    return picture;
}

} // namespace inkturn
