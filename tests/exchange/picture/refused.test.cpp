#include "exchange/picture/picture.hpp"

#include "catch.hpp"
#include "exchange/picture/talkative_pictures.hpp"
#include "refusal.hpp"

#include <algorithm>
#include <random>
#include <sstream>
#include <streambuf>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Catch::Matchers::Matches;

/// The message of the refusal; empty where the file is taken.
std::string refusal(const std::string& file, const PictureLimits& limits = {}) {
    return refusal_of([&] { read_picture(file, limits); });
}

/// Gives out zeros, and counts them.
class Zeros : public std::streambuf {
  public:
    Zeros(std::streamoff size, bool tells_size) : size_(size), tells_size_(tells_size) {}

    std::streamoff given() const { return given_; }

  protected:
    std::streamsize xsgetn(char* to, std::streamsize count) override {
        count = std::min<std::streamsize>(count, size_ - at_);
        std::fill_n(to, count, '\0');
        at_ += count;
        given_ += count;
        return count;
    }

    pos_type seekoff(off_type offset, std::ios::seekdir from, std::ios::openmode) override {
        if (!tells_size_)
            return pos_type(off_type(-1));
        at_ = offset + (from == std::ios::end ? size_ : from == std::ios::cur ? at_ : 0);
        return pos_type(at_);
    }

    pos_type seekpos(pos_type position, std::ios::openmode mode) override {
        return seekoff(position, std::ios::beg, mode);
    }

  private:
    std::streamoff size_;
    std::streamoff at_ = 0;
    std::streamoff given_ = 0;
    bool tells_size_;
};

std::string refusal(std::streambuf& from) {
    std::istream in(&from);
    return refusal_of([&] { read_picture(in); });
}

} // namespace

TEST_CASE("anything but PNG or JPEG is refused, with what it is and what to do") {
    const auto refused = [](const std::string& bytes) {
        const std::string message = refusal(bytes);
        CHECK_THAT(message, Contains(": save the picture as JPEG or PNG and use that file"));
        return message.substr(0, message.find(':'));
    };
    CHECK(refused("") == "the file is empty");
    CHECK(refused("Question 7\r\n(a) \xC3\xA9\n") == "this is a text file, not a JPEG or PNG");
    CHECK(refused("\xFF\xFEQ\0"s) == "this is a text file, not a JPEG or PNG");
    CHECK(refused("<!DOCTYPE html><html>") == "this is a text file, not a JPEG or PNG");
    CHECK(refused("%PDF-1.7\n%\xE2\xE3") == "this is a PDF document, not a JPEG or PNG");
    CHECK(refused("\0\0\0\x18"
                  "ftypheic\0\0\0\0mif1heic"s) == "this is an HEIC picture, not a JPEG or PNG");
    CHECK(refused("\0\0\0\x18"
                  "ftypmif1\0\0\0\0"s) == "this is an HEIC picture, not a JPEG or PNG");
    CHECK(refused("\0\0\0\x18"
                  "ftypavif\0\0\0\0"s) == "this is an AVIF picture, not a JPEG or PNG");
    CHECK(refused("\0\0\0\x18"
                  "ftypisom\0\0\0\0"s) == "this is a video, not a JPEG or PNG");
    CHECK(refused("GIF89a\x01\0\x01\0"s) == "this is a GIF picture, not a JPEG or PNG");
    CHECK(refused("RIFF\x24\0\0\0WEBPVP8 "s) == "this is a WebP picture, not a JPEG or PNG");
    CHECK(refused("II*\0\x08\0\0\0"s) == "this is a TIFF picture, not a JPEG or PNG");
    CHECK(refused("PK\x03\x04\x14\0"s) == "this is a zip archive or an office document, not a JPEG or PNG");
    CHECK(refused("RIFF"s) == "this is a text file, not a JPEG or PNG");
    CHECK(refused("\x01\x02\x03\x04\0\0"s) == "this is not a JPEG or PNG");
    CHECK(refused("\x89PNG\n\x1A\n") ==
          "this is not a JPEG or PNG"); // went through a copy that changes line breaks
}

TEST_CASE("a picture's kind is recognised by its bytes") {
    CHECK(read_picture(drawn_jpeg(grey)).kind == PictureKind::jpeg);
    CHECK(read_picture(drawn_png(rgb)).kind == PictureKind::png);
}

TEST_CASE("a picture above the limits is refused with its size and the limit") {
    CHECK_THAT(refusal(drawn_png(rgb), {12'000'000, 50'000'000, 39}),
               Matches("the picture is 40 by 24 pixels, and it may have at most 39 on each side and 50000000 "
                       "in all: .*"));
    CHECK_THAT(
        refusal(drawn_jpeg(colour), {12'000'000, 959, 40}),
        Matches(
            "the picture is 40 by 24 pixels, and it may have at most 40 on each side and 959 in all: .*"));
    CHECK(refusal(drawn_png(rgb), {12'000'000, 960, 40}).empty());
    CHECK_THAT(refusal(drawn_png(rgb, 24, 40), {12'000'000, 960, 39}), Contains("24 by 40"));
    const PictureLimits usual;
    CHECK_NOTHROW(usual.check_pixels(20'000, 2'500));
    CHECK_NOTHROW(usual.check_pixels(2'500, 20'000));
    CHECK_THROWS_AS(usual.check_pixels(20'000, 2'501), Error);
    CHECK_THROWS_AS(usual.check_pixels(20'001, 1), Error);
    CHECK_THROWS_AS(usual.check_pixels(1, 20'001), Error);
    CHECK_THROWS_AS(usual.check_pixels(0xFFFFFFFF, 0xFFFFFFFF), Error);
}

TEST_CASE("a few bytes that state a huge picture are refused from its header") {
    const std::string png =
        "\x89PNG\r\n\x1A\n" + png_chunk("IHDR", number(60'000, 4) + number(60'000, 4) + "\x08\x06\0\0\0"s);
    CHECK_THAT(refusal(png), Contains("60000 by 60000 pixels"));
    const std::string frame = number(8, 1) + number(60'000, 2) + number(50'000, 2) + "\x01\x01\x11\0"s;
    CHECK_THAT(refusal("\xFF\xD8" + jpeg_segment(0xC2, frame)), Contains("50000 by 60000 pixels"));
}

TEST_CASE("a file above the limit is refused by its size, both sizes given") {
    const std::string file = drawn_jpeg(colour);
    CHECK(refusal(file, {file.size(), 50'000'000, 20'000}).empty());
    CHECK_THAT(refusal(file, {file.size() - 1, 50'000'000, 20'000}), Contains("0.1 MB"));
    std::istringstream in(file);
    CHECK_THROWS_WITH(read_picture(in, {file.size() - 1, 50'000'000, 20'000}),
                      Matches("the file has 0.1 MB, and a picture may have at most 0.1 MB: .*"));
    const std::string large(12'000'001, '\0');
    CHECK_THAT(refusal(large), Matches("the file has 12.1 MB, and a picture may have at most 12 MB: .*"));
    CHECK_THAT(refusal(large.substr(1)), Contains("this is not a JPEG or PNG"));
}

TEST_CASE("a file of 60 MB is refused without reading it to its end") {
    Zeros tells(60'000'000, true);
    CHECK_THAT(refusal(tells), Contains("the file has 60 MB,"));
    CHECK(tells.given() == 0);
    Zeros pipe(60'000'000, false);
    CHECK_THAT(refusal(pipe), Contains("the file has more than 12 MB,"));
    CHECK(pipe.given() < 12'100'000);
}

TEST_CASE("a stream is read from where it is, whether it tells its size or not") {
    const std::string file = drawn_jpeg(colour);
    std::istringstream in("before" + file);
    in.ignore(6);
    CHECK(read_picture(in).bytes == file);
    Zeros pipe(1000, false);
    CHECK_THAT(refusal(pipe), Contains("this is not a JPEG or PNG"));
    CHECK(pipe.given() == 1000);
}

TEST_CASE("a stream that can't be read is not an empty file") {
    std::istringstream in("text");
    in.setstate(std::ios::failbit);
    CHECK_THROWS_WITH(read_picture(in), Contains("could not be read"));
}

TEST_CASE("kinds of JPEG that browsers don't show are refused") {
    const std::string jpeg = drawn_jpeg(colour);
    const std::string::size_type frame = jpeg.find("\xFF\xC0");
    const auto changed = [&](std::size_t at, char byte) {
        std::string other = jpeg;
        other[frame + at] = byte;
        return refusal(other);
    };
    for (const char coding : {'\xC3', '\xC5', '\xC7', '\xC9', '\xCA', '\xCF'})
        CHECK_THAT(changed(1, coding), Contains("lossless, hierarchical or arithmetic"));
    CHECK_THAT(changed(4, '\x0C'), Contains("with other than 8 bits"));
    CHECK_THAT(changed(9, '\x02'), Contains("with other than 1, 3 or 4 components"));
}

TEST_CASE("a JPEG of more scans than pictures have is refused before it is decoded") {
    const std::string jpeg = drawn_jpeg(progressive);
    const std::string::size_type scan = jpeg.rfind("\xFF\xDA");
    const auto with_scans_added = [&](int count) {
        std::string more = jpeg.substr(0, jpeg.size() - 2);
        for (int i = 0; i < count; ++i)
            more += jpeg.substr(scan, jpeg.size() - 2 - scan);
        return refusal(more + "\xFF\xD9");
    };
    CHECK_THAT(with_scans_added(54), !Contains("64 scans")); // there are ten of them
    CHECK_THAT(with_scans_added(55), Contains("with more than 64 scans"));
}

TEST_CASE("pixels that are missing before the end of a JPEG are damage") {
    for (const JpegLook& look : {colour, progressive, grey, with_restarts}) {
        const std::string jpeg = drawn_jpeg(look);
        CHECK_THROWS_AS(read_picture(std::string_view(jpeg.substr(0, jpeg.size() - 22) + "\xFF\xD9")),
                        DamagedPicture);
        CHECK_THROWS_AS(read_picture(std::string_view(jpeg.substr(0, jpeg.size() - 2) + "SECRET\xFF\xD9")),
                        DamagedPicture);
    }
}

TEST_CASE("a wrong PNG checksum is damage, even in a chunk that is dropped") {
    const std::string png = with_chunks(drawn_png(rgb), png_chunk("tEXt", "Author\0K07"s));
    REQUIRE(refusal(png).empty());
    for (const char* const type : {"IHDR", "tEXt", "gAMA", "IDAT", "IEND"}) {
        std::string damaged = png;
        const std::size_t length = static_cast<unsigned char>(png[png.find(type) - 1]);
        damaged[png.find(type) + 4 + length] ^= 1;
        CHECK_THROWS_AS(read_picture(std::string_view(damaged)), DamagedPicture);
    }
}

TEST_CASE("a PNG whose chunks are not those of a picture is damage") {
    const std::string png = drawn_png(rgb);
    const std::string head = png.substr(0, 33), tail = png.substr(png.size() - 12);
    CHECK_THROWS_AS(read_picture(std::string_view(head + tail)), DamagedPicture);
    CHECK_THROWS_AS(read_picture(std::string_view(head + png.substr(8))), DamagedPicture);
    CHECK_THROWS_AS(read_picture(std::string_view(png.substr(0, 8) + png.substr(33))), DamagedPicture);
    CHECK_THROWS_AS(read_picture(std::string_view(with_chunks(png, png_chunk("NEWS", "")))), DamagedPicture);
    CHECK_THROWS_AS(read_picture(std::string_view(with_last_chunks(png, png_chunk("PLTE", "abc")))),
                    DamagedPicture);
    CHECK_THROWS_AS(read_picture(std::string_view(head + number(0xFFFFFFF0, 4) + png.substr(37))),
                    DamagedPicture);
    const std::string one_row_short = head + png.substr(33);
    std::string taller = one_row_short;
    taller.replace(8, 25, png_chunk("IHDR", number(40, 4) + number(25, 4) + "\x08\x02\0\0\0"s));
    CHECK_THROWS_AS(read_picture(std::string_view(taller)), DamagedPicture);
}

TEST_CASE("a JPEG whose segments are not those of a picture is damage") {
    const std::string jpeg = drawn_jpeg(colour);
    const auto damaged = [](const std::string& bytes) { return refusal("\xFF\xD8" + bytes); };
    CHECK_THAT(damaged("\xFF\xD9"), Contains("damaged or cut short"));
    CHECK_THAT(damaged(jpeg.substr(0)), Contains("damaged or cut short")); // a second start
    CHECK_THAT(damaged("\xFF\xE1\0\x01"s + jpeg.substr(2)),
               Contains("past the end")); // a length below its own
    CHECK_THAT(damaged("\xFF\xE1\xFF\xFF" + jpeg.substr(2)), Contains("past the end"));
    CHECK_THAT(damaged("\xFF\xFE\0\x02SECRET"s + jpeg.substr(2)), Contains("between the segments"));
    CHECK_THAT(damaged(jpeg_segment(0xF0, "") + jpeg.substr(2)), Contains("an unknown marker"));
    CHECK_THAT(damaged(jpeg_segment(0xC0, "\x08\0"s) + jpeg.substr(2)), Contains("without a size"));
    CHECK_THAT(damaged(jpeg_segment(0xC0, "\x08\0\0\0\x01\x01\x01\x11\0"s) + jpeg.substr(2)),
               Contains("without a size"));
    CHECK_THAT(damaged("\xFF\xFF\xFF\xFF"), Contains("the end of the image is missing"));
}

TEST_CASE("a picture cut short anywhere is refused") {
    const std::vector<std::string> files{with_segments(drawn_jpeg(colour, 16, 12), jpeg_secrets()),
                                         drawn_jpeg(progressive, 16, 12), drawn_jpeg(with_restarts, 32, 16),
                                         with_chunks(drawn_png(rgb, 16, 12), png_secrets()),
                                         drawn_png(palette, 16, 12)};
    for (const std::string& file : files) {
        REQUIRE(refusal(file).empty());
        for (std::size_t size = 0; size < file.size(); ++size) {
            const std::vector<char> exact(file.begin(), file.begin() + static_cast<std::ptrdiff_t>(size));
            CHECK_THROWS_AS(read_picture(std::string_view(exact.data(), size)), Error);
        }
    }
}

TEST_CASE("a picture with bytes changed is refused, or is one that can be shown") {
    const std::vector<std::string> files{
        with_segments(drawn_jpeg(colour, 16, 12), jpeg_exif(camera_exif(6))), drawn_jpeg(progressive, 24, 16),
        drawn_jpeg(ycck, 16, 12),
        with_chunks(drawn_png(interlaced, 16, 12), png_chunk("eXIf", camera_exif(8))),
        drawn_png(palette, 16, 12)};
    std::mt19937 dice(8);
    int taken = 0, refused = 0;
    for (int round = 0; round < 2000; ++round) {
        std::string file = files[dice() % files.size()];
        for (std::size_t changes = 1 + dice() % 3; changes > 0; --changes)
            file[dice() % file.size()] = static_cast<char>(static_cast<unsigned char>(dice() % 256));
        if (!refusal(file).empty()) {
            ++refused;
            continue;
        }
        ++taken;
        const Picture picture = read_picture(file);
        const std::optional<Decoded> shown = decoded(picture.bytes);
        REQUIRE(shown.has_value());
        CHECK(std::minmax(shown->width, shown->height) == std::minmax(picture.width, picture.height));
        CHECK(read_picture(picture.bytes).bytes == picture.bytes);
    }
    CHECK(taken > 100);
    CHECK(refused > 100);
}

TEST_CASE("random PNG chunks are refused, or are a picture that can be shown") {
    const std::string png = drawn_png(palette, 16, 12);
    std::vector<std::string> chunks{png_secrets()};
    for (std::size_t at = 8; at < png.size();) {
        const std::size_t size = static_cast<unsigned char>(png[at + 3]) + 12u;
        chunks.push_back(png.substr(at, size));
        at += size;
    }
    std::mt19937 dice(3);
    int taken = 0;
    for (int round = 0; round < 2000; ++round) {
        std::vector<std::string> order = chunks;
        for (std::size_t swaps = dice() % 3; swaps > 0; --swaps)
            std::swap(order[dice() % order.size()], order[dice() % order.size()]);
        if (dice() % 2 == 0)
            order.insert(order.begin() + static_cast<std::ptrdiff_t>(dice() % order.size()),
                         chunks[dice() % chunks.size()]);
        std::string file = png.substr(0, 8);
        for (const std::string& chunk : order)
            file += chunk;
        if (!refusal(file).empty())
            continue;
        ++taken;
        const std::string kept = read_picture(file).bytes;
        CHECK(kept.find("SECRET") == std::string::npos);
        CHECK(decoded(kept).has_value());
    }
    CHECK(taken > 10);
}
