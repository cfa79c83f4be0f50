#include "exchange/picture/png_write.hpp"

#include "exchange/picture/picture.hpp"
#include "inkturn/base/error.hpp"

#include <array>
#include <csetjmp>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <vector>

#include <png.h>

namespace inkturn {
namespace {

constexpr int bits = 4;
constexpr int level = 5; // of zlib: 2 % larger than with the usual 6, in four fifths of the time
constexpr int buffer_size = 64 * 1024;

/// Of each grey the nearest of sixteen, 17 apart.
constexpr std::array<std::uint8_t, 256> nearest_levels() {
    std::array<std::uint8_t, 256> nearest{};
    for (std::size_t grey = 0; grey < nearest.size(); ++grey)
        nearest[grey] = static_cast<std::uint8_t>((grey + 8) / 17);
    return nearest;
}
constexpr std::array<std::uint8_t, 256> levels = nearest_levels();

/// libpng's state. It reports errors by a jump, so everything with a destructor lives outside run().
class Encoding {
  public:
    explicit Encoding(const Raster& raster)
        : raster_(raster),
          row_((raster.width + 1) / 2),
          png_(png_create_write_struct(PNG_LIBPNG_VER_STRING, this, leave, pass_over)),
          info_(png_ ? png_create_info_struct(png_) : nullptr) {}
    ~Encoding() { png_destroy_write_struct(&png_, &info_); }
    Encoding(const Encoding&) = delete;
    Encoding& operator=(const Encoding&) = delete;

    bool run() {
        if (!png_ || !info_)
            return false;
        if (setjmp(png_jmpbuf(png_)) != 0)
            return false;
        png_set_write_fn(png_, this, write, nullptr);
        png_set_compression_buffer_size(png_, buffer_size);
        png_set_compression_level(png_, level);
        png_set_filter(png_, PNG_FILTER_TYPE_BASE, PNG_FILTER_NONE);
        png_set_IHDR(png_, info_, static_cast<png_uint_32>(raster_.width),
                     static_cast<png_uint_32>(raster_.height), bits, PNG_COLOR_TYPE_GRAY, PNG_INTERLACE_NONE,
                     PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
        png_write_info(png_, info_);
        for (std::size_t y = 0; y < raster_.height; ++y) {
            pack(y);
            png_write_row(png_, row_.data());
        }
        png_write_end(png_, nullptr);
        return true;
    }

    const std::string& file() const { return file_; }
    const char* message() const { return message_.data(); }

  private:
    [[noreturn]] static void leave(png_structp png, png_const_charp message) {
        auto* encoding = static_cast<Encoding*>(png_get_error_ptr(png));
        std::snprintf(encoding->message_.data(), encoding->message_.size(), "%s", message);
        png_longjmp(png, 1);
    }

    static void pass_over(png_structp /*png*/, png_const_charp /*message*/) {}

    static void write(png_structp png, png_bytep bytes, std::size_t size) {
        static_cast<Encoding*>(png_get_io_ptr(png))->file_.append(reinterpret_cast<const char*>(bytes), size);
    }

    void pack(std::size_t y) {
        const std::uint8_t* const row = raster_.row(y);
        const std::size_t pairs = raster_.width / 2;
        for (std::size_t i = 0; i < pairs; ++i)
            row_[i] = static_cast<png_byte>(levels[row[2 * i]] << bits | levels[row[2 * i + 1]]);
        if (raster_.width % 2 == 1)
            row_[pairs] = static_cast<png_byte>(levels[row[2 * pairs]] << bits);
    }

    const Raster& raster_;
    std::vector<png_byte> row_;
    std::string file_;
    std::array<char, 128> message_{"out of memory"};
    png_structp png_;
    png_infop info_;
};

} // namespace

std::string png_of(const Raster& raster) {
    Encoding encoding(raster);
    if (!encoding.run())
        throw Error(std::string("the picture could not be written as PNG: ") + encoding.message());
    return encoding.file();
}

Picture png_picture(const Raster& raster) {
    const PictureLimits limits;
    Picture picture{PictureKind::png, static_cast<std::uint32_t>(raster.width),
                    static_cast<std::uint32_t>(raster.height), ""};
    limits.check_pixels(picture.width, picture.height);
    picture.bytes = png_of(raster);
    limits.check_bytes(picture.bytes.size());
    return picture;
}

} // namespace inkturn
