#pragma once

#include <csetjmp>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include <jpeglib.h>
#include <png.h>
#include <zlib.h>

namespace inkturn::test {

/// What a decoder makes of a file, and the parts of it that change how the pixels look.
struct Decoded {
    std::uint32_t width = 0;
    std::uint32_t height = 0;
    std::vector<unsigned char> pixels{}; ///< as stored, row by row
    std::string look{};                  ///< kind of colour, palette, transparency, gamma
    std::string exif{};                  ///< the body of Exif, where there is any

    bool operator==(const Decoded& other) const {
        return width == other.width && height == other.height && pixels == other.pixels &&
               look == other.look && exif == other.exif;
    }
};

inline std::string number(std::uint32_t value, std::size_t size) {
    std::string bytes;
    while (size-- > 0)
        bytes += static_cast<char>(static_cast<unsigned char>(value >> 8 * size & 0xFF));
    return bytes;
}

/// Smooth enough to be compressed, with noise so that every byte of the file counts.
inline std::vector<unsigned char> drawn_row(std::size_t size, std::uint32_t y) {
    std::mt19937 dice(y + 1);
    std::vector<unsigned char> row(size);
    for (std::size_t x = 0; x < size; ++x)
        row[x] = static_cast<unsigned char>((x * 5 + y * 9 + dice() % 24) % 256);
    return row;
}

// JPEG

struct JpegLook {
    J_COLOR_SPACE drawn = JCS_RGB;
    int components = 3;
    J_COLOR_SPACE stored = JCS_YCbCr;
    bool progressive = false;
    unsigned restart_interval = 0;
};

constexpr JpegLook colour{};
constexpr JpegLook progressive{JCS_RGB, 3, JCS_YCbCr, true, 0};
constexpr JpegLook grey{JCS_GRAYSCALE, 1, JCS_GRAYSCALE, false, 0};
constexpr JpegLook cmyk{JCS_CMYK, 4, JCS_CMYK, false, 0};
constexpr JpegLook ycck{JCS_CMYK, 4, JCS_YCCK, false, 0};
constexpr JpegLook with_restarts{JCS_RGB, 3, JCS_YCbCr, false, 1};

inline std::string drawn_jpeg(const JpegLook& look, std::uint32_t width = 40, std::uint32_t height = 24) {
    jpeg_compress_struct jpeg{};
    jpeg_error_mgr errors{};
    jpeg.err = jpeg_std_error(&errors);
    jpeg_create_compress(&jpeg);
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&jpeg, &bytes, &size);
    jpeg.image_width = width;
    jpeg.image_height = height;
    jpeg.input_components = look.components;
    jpeg.in_color_space = look.drawn;
    jpeg_set_defaults(&jpeg);
    jpeg_set_colorspace(&jpeg, look.stored);
    jpeg.restart_interval = look.restart_interval;
    if (look.progressive)
        jpeg_simple_progression(&jpeg);
    jpeg_start_compress(&jpeg, TRUE);
    for (std::uint32_t y = 0; y < height; ++y) {
        std::vector<unsigned char> row = drawn_row(width * static_cast<std::size_t>(look.components), y);
        JSAMPROW start = row.data();
        jpeg_write_scanlines(&jpeg, &start, 1);
    }
    jpeg_finish_compress(&jpeg);
    std::string file(reinterpret_cast<const char*>(bytes), size);
    jpeg_destroy_compress(&jpeg);
    std::free(bytes);
    return file;
}

struct JpegErrors {
    jpeg_error_mgr manager;
    std::jmp_buf back;
};

struct JpegDecoder {
    JpegErrors errors{};
    jpeg_decompress_struct jpeg{};
    Decoded decoded{};

    JpegDecoder() {
        jpeg.err = jpeg_std_error(&errors.manager);
        errors.manager.error_exit = [](j_common_ptr common) {
            std::longjmp(reinterpret_cast<JpegErrors*>(common->err)->back, 1);
        };
        errors.manager.emit_message = [](j_common_ptr common, int level) {
            common->err->num_warnings += level < 0;
        };
    }
    ~JpegDecoder() { jpeg_destroy_decompress(&jpeg); }
    JpegDecoder(const JpegDecoder&) = delete;
    JpegDecoder& operator=(const JpegDecoder&) = delete;

    bool run(const std::string& file) {
        if (setjmp(errors.back) != 0)
            return false;
        jpeg_create_decompress(&jpeg);
        jpeg_mem_src(&jpeg, reinterpret_cast<const unsigned char*>(file.data()), file.size());
        jpeg_save_markers(&jpeg, JPEG_APP0 + 1, 0xFFFF);
        jpeg_read_header(&jpeg, TRUE);
        decoded.look = std::to_string(jpeg.jpeg_color_space) + (jpeg.saw_Adobe_marker ? " Adobe" : "");
        for (jpeg_saved_marker_ptr marker = jpeg.marker_list; marker; marker = marker->next)
            decoded.exif.append(reinterpret_cast<const char*>(marker->data), marker->data_length);
        jpeg_start_decompress(&jpeg);
        decoded.width = jpeg.output_width;
        decoded.height = jpeg.output_height;
        const std::size_t row_size = jpeg.output_width * static_cast<std::size_t>(jpeg.output_components);
        decoded.pixels.resize(row_size * jpeg.output_height);
        while (jpeg.output_scanline < jpeg.output_height) {
            JSAMPROW row = decoded.pixels.data() + row_size * jpeg.output_scanline;
            jpeg_read_scanlines(&jpeg, &row, 1);
        }
        jpeg_finish_decompress(&jpeg);
        return errors.manager.num_warnings == 0;
    }
};

/// Nothing where the file has an error or a decoder warns of one.
inline std::optional<Decoded> decoded_jpeg(const std::string& file) {
    JpegDecoder decoder;
    if (!decoder.run(file))
        return std::nullopt;
    return decoder.decoded;
}

inline std::string jpeg_segment(unsigned char marker, const std::string& body) {
    return std::string{'\xFF', static_cast<char>(marker)} +
           number(static_cast<std::uint32_t>(body.size() + 2), 2) + body;
}

/// With more segments right after the start of the image.
inline std::string with_segments(const std::string& jpeg, const std::string& segments) {
    return jpeg.substr(0, 2) + segments + jpeg.substr(2);
}

// PNG

struct PngLook {
    int colour_type = PNG_COLOR_TYPE_RGB;
    int depth = 8;
    int interlace = PNG_INTERLACE_NONE;
};

constexpr PngLook rgb{};
constexpr PngLook palette{PNG_COLOR_TYPE_PALETTE, 4, PNG_INTERLACE_NONE};
constexpr PngLook alpha{PNG_COLOR_TYPE_RGB_ALPHA, 8, PNG_INTERLACE_NONE};
constexpr PngLook deep{PNG_COLOR_TYPE_RGB, 16, PNG_INTERLACE_NONE};
constexpr PngLook interlaced{PNG_COLOR_TYPE_GRAY_ALPHA, 8, PNG_INTERLACE_ADAM7};
constexpr PngLook bits{PNG_COLOR_TYPE_GRAY, 1, PNG_INTERLACE_ADAM7};

inline void append_bytes(png_structp png, png_bytep bytes, std::size_t size) {
    static_cast<std::string*>(png_get_io_ptr(png))->append(reinterpret_cast<const char*>(bytes), size);
}

/// In several IDAT chunks; a palette comes with transparency, other pictures with gamma and chromaticities.
inline std::string drawn_png(const PngLook& look, std::uint32_t width = 40, std::uint32_t height = 24) {
    std::string file;
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
    png_infop info = png_create_info_struct(png);
    png_set_write_fn(png, &file, append_bytes, nullptr);
    png_set_compression_buffer_size(png, 200);
    png_set_IHDR(png, info, width, height, look.depth, look.colour_type, look.interlace,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    if (look.colour_type == PNG_COLOR_TYPE_PALETTE) {
        std::vector<png_color> colours;
        std::vector<png_byte> opacities;
        for (unsigned i = 0; i < 1u << look.depth; ++i) {
            const auto level = static_cast<png_byte>(i * 15);
            colours.push_back({level, static_cast<png_byte>(255 - level), 7});
            opacities.push_back(static_cast<png_byte>(255 - i));
        }
        png_set_PLTE(png, info, colours.data(), static_cast<int>(colours.size()));
        png_set_tRNS(png, info, opacities.data(), static_cast<int>(opacities.size()), nullptr);
    } else {
        png_set_gAMA(png, info, 1 / 2.2);
        png_set_cHRM(png, info, .3127, .329, .64, .33, .3, .6, .15, .06);
    }
    png_write_info(png, info);
    const int passes = png_set_interlace_handling(png);
    for (int pass = 0; pass < passes; ++pass)
        for (std::uint32_t y = 0; y < height; ++y)
            png_write_row(png, drawn_row(png_get_rowbytes(png, info), y).data());
    png_write_end(png, nullptr);
    png_destroy_write_struct(&png, &info);
    return file;
}

struct PngDecoder {
    std::string_view left;
    Decoded decoded{};
    png_structp png = nullptr;
    png_infop info = nullptr;

    explicit PngDecoder(std::string_view file) : left(file) {
        png = png_create_read_struct(
            PNG_LIBPNG_VER_STRING, this, [](png_structp from, png_const_charp) { png_longjmp(from, 1); },
            [](png_structp, png_const_charp) {});
        info = png_create_info_struct(png);
    }
    ~PngDecoder() { png_destroy_read_struct(&png, &info, nullptr); }
    PngDecoder(const PngDecoder&) = delete;
    PngDecoder& operator=(const PngDecoder&) = delete;

    static void read(png_structp from, png_bytep to, std::size_t size) {
        std::string_view& left = static_cast<PngDecoder*>(png_get_io_ptr(from))->left;
        if (size > left.size())
            png_error(from, "cut short");
        std::memcpy(to, left.data(), size);
        left.remove_prefix(size);
    }

    bool run() {
        if (setjmp(png_jmpbuf(png)) != 0)
            return false;
        png_set_read_fn(png, this, read);
        png_read_info(png, info);
        take_look();
        const int passes = png_set_interlace_handling(png);
        png_read_update_info(png, info);
        decoded.width = png_get_image_width(png, info);
        decoded.height = png_get_image_height(png, info);
        const std::size_t row_size = png_get_rowbytes(png, info);
        decoded.pixels.resize(row_size * decoded.height);
        for (int pass = 0; pass < passes; ++pass)
            for (std::size_t y = 0; y < decoded.height; ++y)
                png_read_row(png, decoded.pixels.data() + y * row_size, nullptr);
        png_read_end(png, info);
        png_uint_32 exif_size = 0;
        png_bytep exif = nullptr;
        if (png_get_eXIf_1(png, info, &exif_size, &exif) != 0)
            decoded.exif.assign(reinterpret_cast<const char*>(exif), exif_size);
        return left.empty();
    }

    void take_look() {
        png_colorp colours = nullptr;
        int count = 0;
        if (png_get_PLTE(png, info, &colours, &count) != 0)
            decoded.look.append(reinterpret_cast<const char*>(colours),
                                sizeof(png_color) * static_cast<std::size_t>(count));
        png_bytep opacities = nullptr;
        png_color_16p opaque = nullptr;
        if (png_get_tRNS(png, info, &opacities, &count, &opaque) != 0 && opacities)
            decoded.look.append(reinterpret_cast<const char*>(opacities), static_cast<std::size_t>(count));
        png_fixed_point gamma = 0;
        if (png_get_gAMA_fixed(png, info, &gamma) != 0)
            decoded.look += " gamma " + std::to_string(gamma);
        double x[8];
        if (png_get_cHRM(png, info, x, x + 1, x + 2, x + 3, x + 4, x + 5, x + 6, x + 7) != 0)
            decoded.look += " red " + std::to_string(x[2]);
        int intent = 0;
        if (png_get_sRGB(png, info, &intent) != 0)
            decoded.look += " sRGB " + std::to_string(intent);
    }
};

/// Nothing where the file has an error or bytes after its end.
inline std::optional<Decoded> decoded_png(const std::string& file) {
    PngDecoder decoder(file);
    if (!decoder.run())
        return std::nullopt;
    return decoder.decoded;
}

inline std::string png_chunk(const std::string& type, const std::string& body) {
    const std::string summed = type + body;
    const uLong sum =
        crc32(0, reinterpret_cast<const Bytef*>(summed.data()), static_cast<uInt>(summed.size()));
    return number(static_cast<std::uint32_t>(body.size()), 4) + summed +
           number(static_cast<std::uint32_t>(sum), 4);
}

/// With more chunks right after the header.
inline std::string with_chunks(const std::string& png, const std::string& chunks) {
    constexpr std::size_t header_end = 8 + 12 + 13;
    return png.substr(0, header_end) + chunks + png.substr(header_end);
}

/// With more chunks right before the end.
inline std::string with_last_chunks(const std::string& png, const std::string& chunks) {
    return png.substr(0, png.size() - 12) + chunks + png.substr(png.size() - 12);
}

} // namespace inkturn::test
