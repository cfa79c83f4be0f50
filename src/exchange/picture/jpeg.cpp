#include "exchange/picture/jpeg.hpp"

#include "exchange/picture/octets.hpp"
#include "exchange/picture/orientation.hpp"

#include <csetjmp>
#include <cstddef>
#include <cstdio>
#include <utility>

#include <jpeglib.h>

namespace inkturn {
namespace {

// Markers of ITU-T T.81, table B.1, by their second byte.
constexpr unsigned char baseline_frame = 0xC0;
constexpr unsigned char progressive_frame = 0xC2;
constexpr unsigned char huffman_tables = 0xC4;
constexpr unsigned char jpg_extension = 0xC8;
constexpr unsigned char arithmetic_conditioning = 0xCC;
constexpr unsigned char last_frame = 0xCF;
constexpr unsigned char first_restart = 0xD0;
constexpr unsigned char last_restart = 0xD7;
constexpr unsigned char start_of_image = 0xD8;
constexpr unsigned char end_of_image = 0xD9;
constexpr unsigned char start_of_scan = 0xDA;
constexpr unsigned char quantization_tables = 0xDB;
constexpr unsigned char number_of_lines = 0xDC;
constexpr unsigned char restart_interval = 0xDD;
constexpr unsigned char application_0 = 0xE0;
constexpr unsigned char application_1 = 0xE1;
constexpr unsigned char application_14 = 0xEE;
constexpr unsigned char application_15 = 0xEF;
constexpr unsigned char comment = 0xFE;
constexpr unsigned char temporary = 0x01;
constexpr char prefix = '\xFF';

constexpr std::string_view jfif_name("JFIF\0", 5);
constexpr std::string_view exif_name("Exif\0\0", 6);
constexpr std::size_t jfif_size = 14; ///< without a thumbnail
constexpr std::size_t adobe_size = 12;

/// A progressive picture has about ten; a file of a few bytes that has thousands would take hours.
constexpr int max_scans = 64;

constexpr bool is_between(unsigned char marker, unsigned char first, unsigned char last) {
    return marker >= first && marker <= last;
}

bool is_frame(unsigned char marker) {
    return is_between(marker, baseline_frame, last_frame) && marker != huffman_tables &&
           marker != jpg_extension && marker != arithmetic_conditioning;
}

bool is_dropped(unsigned char marker) {
    return is_between(marker, application_0, application_15) || marker == comment ||
           marker == number_of_lines;
}

std::string segment(unsigned char marker, std::string_view body) {
    return std::string{prefix, static_cast<char>(marker)} +
           big_endian_bytes(static_cast<std::uint32_t>(body.size() + 2), 2) + std::string(body);
}

struct Segment {
    unsigned char marker;
    std::string_view body; ///< without the marker and the length
};

/// Goes through a file from segment to segment.
class Segments {
  public:
    explicit Segments(std::string_view bytes) : bytes_(bytes) {}

    /// The next one; those of the end of the image have no body.
    Segment next() {
        const unsigned char marker = next_marker();
        if (marker == end_of_image)
            return {marker, {}};
        if (marker == 0 || marker == start_of_image)
            throw DamagedPicture("JPEG: a marker out of place");
        const std::size_t length = big_endian(left().substr(0, 2));
        if (left().size() < 2 || length < 2 || left().size() < length)
            throw DamagedPicture("JPEG: a segment goes past the end of the file");
        const std::string_view body = left().substr(2, length - 2);
        at_ += length;
        return {marker, body};
    }

    /// The coded pixels after a start of scan, restart markers among them, up to the next segment.
    std::string_view scan() {
        const std::size_t start = at_;
        for (;;) {
            at_ = bytes_.find(prefix, at_);
            const std::size_t code = bytes_.find_first_not_of(prefix, at_);
            if (at_ == std::string_view::npos || code == std::string_view::npos)
                throw DamagedPicture("JPEG: the file ends inside the pixels");
            const auto byte = static_cast<unsigned char>(bytes_[code]);
            if (byte != 0 && !is_between(byte, first_restart, last_restart))
                return bytes_.substr(start, at_ - start);
            at_ = code + 1;
        }
    }

  private:
    std::string_view left() const { return bytes_.substr(at_); }

    /// Passes over filling bytes and the markers that stand alone and mean nothing here.
    unsigned char next_marker() {
        for (;;) {
            if (left().substr(0, 1) != std::string_view(&prefix, 1))
                throw DamagedPicture(left().empty() ? "JPEG: the end of the image is missing"
                                                    : "JPEG: bytes between the segments");
            at_ = bytes_.find_first_not_of(prefix, at_);
            if (at_ == std::string_view::npos)
                throw DamagedPicture("JPEG: the end of the image is missing");
            const auto marker = static_cast<unsigned char>(bytes_[at_++]);
            if (marker != temporary && !is_between(marker, first_restart, last_restart))
                return marker;
        }
    }

    std::string_view bytes_;
    std::size_t at_ = 2; ///< behind the start of the image
};

[[noreturn]] void refuse_variety(const std::string& what) {
    throw Error("this is a JPEG " + what +
                ", which browsers don't show: open it and save it as JPEG or PNG again");
}

/// What is kept of a file.
class KeptJpeg {
  public:
    KeptJpeg(std::string_view bytes, const PictureLimits& limits) {
        Segments segments(bytes);
        for (Segment next = segments.next(); next.marker != end_of_image; next = segments.next()) {
            take(next, limits);
            if (next.marker == start_of_scan)
                rest_ += segments.scan();
        }
    }

    Picture picture() const {
        const std::string exif = orientation_ == Orientation::as_stored
                                     ? std::string()
                                     : segment(application_1, std::string(exif_name) + exif_of(orientation_));
        Picture picture{PictureKind::jpeg, width_, height_,
                        std::string{prefix, static_cast<char>(start_of_image)} + jfif_ + exif + rest_ +
                            std::string{prefix, static_cast<char>(end_of_image)}};
        if (swaps_sides(orientation_))
            std::swap(picture.width, picture.height);
        return picture;
    }

  private:
    void take(const Segment& from, const PictureLimits& limits) {
        switch (from.marker) {
        case application_0:
            take_jfif(from.body);
            return;
        case application_1:
            take_exif(from.body);
            return;
        case application_14:
            if (begins_with(from.body, "Adobe") && from.body.size() >= adobe_size)
                rest_ += segment(application_14, from.body.substr(0, adobe_size));
            return;
        case start_of_scan:
            if (++scans_ > max_scans)
                refuse_variety("of more than " + std::to_string(max_scans) + " scans");
            break;
        case huffman_tables:
        case quantization_tables:
        case restart_interval:
            break;
        default:
            if (is_dropped(from.marker))
                return;
            if (!is_frame(from.marker))
                throw DamagedPicture("JPEG: an unknown marker");
            take_frame(from, limits);
        }
        rest_ += segment(from.marker, from.body);
    }

    void take_jfif(std::string_view body) {
        if (jfif_.empty() && begins_with(body, jfif_name) && body.size() >= jfif_size)
            jfif_ = segment(application_0, std::string(body.substr(0, jfif_size - 2)) + std::string(2, '\0'));
    }

    void take_exif(std::string_view body) {
        if (has_exif_ || !begins_with(body, exif_name))
            return;
        has_exif_ = true;
        orientation_ = orientation_in(body.substr(exif_name.size()));
    }

    /// Precision, height, width, the number of components.
    void take_frame(const Segment& from, const PictureLimits& limits) {
        if (from.marker > progressive_frame)
            refuse_variety("with lossless, hierarchical or arithmetic coding");
        if (from.body.size() < 6)
            throw DamagedPicture("JPEG: a frame without a size");
        if (from.body[0] != 8)
            refuse_variety("of other than 8 bits");
        height_ = big_endian(from.body.substr(1, 2));
        width_ = big_endian(from.body.substr(3, 2));
        if (width_ == 0 || height_ == 0)
            throw DamagedPicture("JPEG: a frame without a size");
        limits.check_pixels(width_, height_);
        if (from.body[5] != 1 && from.body[5] != 3 && from.body[5] != 4)
            refuse_variety("of other than 1, 3 or 4 components");
    }

    std::string jfif_;
    std::string rest_;
    std::uint32_t width_ = 0;
    std::uint32_t height_ = 0;
    int scans_ = 0;
    bool has_exif_ = false;
    Orientation orientation_ = Orientation::as_stored;
};

/// libjpeg's state. It reports errors by a jump, so that all that has a destructor lives outside of run().
class JpegDecoding {
  public:
    JpegDecoding() {
        jpeg_.err = jpeg_std_error(&errors_.manager);
        errors_.manager.error_exit = leave;
        errors_.manager.emit_message = leave_at_warning;
    }
    ~JpegDecoding() { jpeg_destroy_decompress(&jpeg_); }
    JpegDecoding(const JpegDecoding&) = delete;
    JpegDecoding& operator=(const JpegDecoding&) = delete;

    /// Decodes a file to its end, a row at a time; false at an error and at the first warning.
    bool run(const unsigned char* bytes, unsigned long size) {
        if (setjmp(errors_.back) != 0)
            return false;
        jpeg_create_decompress(&jpeg_);
        jpeg_mem_src(&jpeg_, bytes, size);
        jpeg_read_header(&jpeg_, TRUE);
        jpeg_start_decompress(&jpeg_);
        const JDIMENSION row_size = jpeg_.output_width * static_cast<JDIMENSION>(jpeg_.output_components);
        const JSAMPARRAY row =
            (*jpeg_.mem->alloc_sarray)(reinterpret_cast<j_common_ptr>(&jpeg_), JPOOL_IMAGE, row_size, 1);
        while (jpeg_.output_scanline < jpeg_.output_height)
            jpeg_read_scanlines(&jpeg_, row, 1);
        jpeg_finish_decompress(&jpeg_);
        return true;
    }

    const char* message() const { return errors_.message; }

  private:
    struct Errors {
        jpeg_error_mgr manager; // first: libjpeg hands its address back
        std::jmp_buf back;
        char message[JMSG_LENGTH_MAX];
    };

    [[noreturn]] static void leave(j_common_ptr jpeg) {
        auto* errors = reinterpret_cast<Errors*>(jpeg->err);
        (*errors->manager.format_message)(jpeg, errors->message);
        std::longjmp(errors->back, 1);
    }

    static void leave_at_warning(j_common_ptr jpeg, int level) {
        if (level < 0)
            leave(jpeg);
    }

    jpeg_decompress_struct jpeg_{};
    Errors errors_{};
};

void decode_jpeg(std::string_view bytes) {
    JpegDecoding decoding;
    if (!decoding.run(reinterpret_cast<const unsigned char*>(bytes.data()),
                      static_cast<unsigned long>(bytes.size())))
        throw DamagedPicture(std::string("JPEG: ") + decoding.message());
}

} // namespace

bool is_jpeg(std::string_view bytes) {
    return begins_with(bytes, "\xFF\xD8\xFF");
}

Picture read_jpeg(std::string_view bytes, const PictureLimits& limits) {
    Picture picture = KeptJpeg(bytes, limits).picture();
    decode_jpeg(picture.bytes);
    return picture;
}

} // namespace inkturn
