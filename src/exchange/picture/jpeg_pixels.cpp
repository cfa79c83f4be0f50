#include "exchange/picture/jpeg_pixels.hpp"

#include "inkturn/base/error.hpp"

#include <csetjmp>
#include <cstdio>
#include <cstdlib>

#include <jpeglib.h>

namespace inkturn {
namespace {

constexpr int exif_marker = JPEG_APP0 + 1;
constexpr std::size_t exif_header = 6; ///< `Exif`, 0, 0
constexpr int quality_kept = 90;

/// The library's errors as a jump; its warnings were looked at when the picture was read.
struct PixelErrors {
    jpeg_error_mgr manager{};
    std::jmp_buf jump{};
    char message[JMSG_LENGTH_MAX] = {};
};

void note_pixel_error(j_common_ptr state) {
    auto* const errors = reinterpret_cast<PixelErrors*>(state->err); // the manager is its first member
    state->err->format_message(state, errors->message);
    std::longjmp(errors->jump, 1);
}

void say_nothing(j_common_ptr /*state*/, int /*level*/) {}

jpeg_error_mgr* set_up(PixelErrors& errors) {
    jpeg_std_error(&errors.manager);
    errors.manager.error_exit = note_pixel_error;
    errors.manager.emit_message = say_nothing;
    return &errors.manager;
}

/// Nothing that needs a destructor may be made between setjmp and what jumps.
bool start_decoding(jpeg_decompress_struct& state, PixelErrors& errors, std::string_view bytes,
                    std::size_t channels, unsigned divisor) {
    if (setjmp(errors.jump) != 0)
        return false;
    jpeg_create_decompress(&state);
    jpeg_mem_src(&state, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    jpeg_save_markers(&state, exif_marker, 0xFFFF);
    jpeg_read_header(&state, TRUE);
    state.out_color_space = channels == 1 ? JCS_GRAYSCALE : JCS_RGB;
    state.scale_num = 1;
    state.scale_denom = divisor;
    jpeg_start_decompress(&state);
    return true;
}

bool decode_rows(jpeg_decompress_struct& state, PixelErrors& errors, std::uint8_t* pixels,
                 std::size_t row_size) {
    if (setjmp(errors.jump) != 0)
        return false;
    while (state.output_scanline < state.output_height) {
        JSAMPROW row = pixels + state.output_scanline * row_size;
        jpeg_read_scanlines(&state, &row, 1);
    }
    jpeg_finish_decompress(&state);
    return true;
}

bool encode(jpeg_compress_struct& state, PixelErrors& errors, const JpegPixels& pixels, unsigned char** out,
            unsigned long* size) {
    if (setjmp(errors.jump) != 0)
        return false;
    jpeg_create_compress(&state);
    jpeg_mem_dest(&state, out, size);
    state.image_width = static_cast<JDIMENSION>(pixels.width);
    state.image_height = static_cast<JDIMENSION>(pixels.height);
    state.input_components = static_cast<int>(pixels.channels);
    state.in_color_space = pixels.channels == 1 ? JCS_GRAYSCALE : JCS_RGB;
    jpeg_set_defaults(&state);
    jpeg_set_quality(&state, quality_kept, TRUE);
    jpeg_start_compress(&state, TRUE);
    while (state.next_scanline < state.image_height) {
        auto* row = const_cast<std::uint8_t*>(pixels.bytes.data()) + // the library only reads it
                    state.next_scanline * pixels.width * pixels.channels;
        jpeg_write_scanlines(&state, &row, 1);
    }
    jpeg_finish_compress(&state);
    return true;
}

Orientation orientation_stated(const jpeg_decompress_struct& state) {
    for (const jpeg_saved_marker_ptr* at = &state.marker_list; *at != nullptr; at = &(*at)->next)
        if ((*at)->marker == exif_marker && (*at)->data_length > exif_header)
            return orientation_in(
                {reinterpret_cast<const char*>((*at)->data) + exif_header, (*at)->data_length - exif_header});
    return Orientation::as_stored;
}

[[noreturn]] void refuse_pixels(const PixelErrors& errors) {
    throw Error(std::string("the picture's pixels can't be worked on (") + errors.message + ")");
}

} // namespace

JpegPixels jpeg_pixels(std::string_view bytes, std::size_t channels, unsigned divisor) {
    PixelErrors errors;
    jpeg_decompress_struct state{};
    state.err = set_up(errors);
    JpegPixels pixels;
    pixels.channels = channels;
    bool done = start_decoding(state, errors, bytes, channels, divisor);
    if (done) {
        pixels.width = state.output_width;
        pixels.height = state.output_height;
        pixels.bytes.resize(pixels.width * pixels.height * channels);
        pixels.orientation = orientation_stated(state);
        done = decode_rows(state, errors, pixels.bytes.data(), pixels.width * channels);
    }
    jpeg_destroy_decompress(&state);
    if (!done)
        refuse_pixels(errors);
    return pixels;
}

std::string jpeg_of(const JpegPixels& pixels) {
    PixelErrors errors;
    jpeg_compress_struct state{};
    state.err = set_up(errors);
    unsigned char* out = nullptr;
    unsigned long size = 0;
    const bool done = encode(state, errors, pixels, &out, &size);
    jpeg_destroy_compress(&state);
    std::string file;
    if (done)
        file.assign(reinterpret_cast<const char*>(out), size);
    std::free(out); // as the library allocates it
    if (!done)
        refuse_pixels(errors);
    return file;
}

} // namespace inkturn
