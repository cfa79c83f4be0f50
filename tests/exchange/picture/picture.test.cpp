#include "exchange/picture/picture.hpp"

#include "catch.hpp"
#include "exchange/picture/orientation.hpp"
#include "exchange/picture/talkative_pictures.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// The whole of Exif that is kept, byte by byte.
std::string bare_exif(std::uint32_t orientation) {
    return "MM\0\x2A\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0"s + number(orientation, 1) + "\0\0\0\0\0\0"s;
}

std::vector<std::string> chunk_types(const std::string& png) {
    std::vector<std::string> types;
    for (std::size_t at = 8; at < png.size();) {
        std::size_t length = 0;
        for (std::size_t i = 0; i < 4; ++i)
            length = length << 8 | static_cast<unsigned char>(png[at + i]);
        const std::string type = png.substr(at + 4, 4);
        if (types.empty() || types.back() != type)
            types.push_back(type);
        at += length + 12;
    }
    return types;
}

/// Reading leaves the pixels and how they look, and nothing of what is said beside them.
void check_keeps_pixels_alone(const std::string& plain, const std::string& talkative) {
    REQUIRE(talkative.find("SECRET") != std::string::npos);
    const Picture picture = read_picture(talkative);
    CHECK(picture.bytes.find("SECRET") == std::string::npos);
    CHECK(picture.bytes == read_picture(plain).bytes);
    CHECK(picture.width == 40);
    CHECK(picture.height == 24);
    const std::optional<Decoded> before = decoded(plain);
    REQUIRE(before.has_value());
    CHECK(decoded(picture.bytes) == before);
    CHECK(read_picture(picture.bytes).bytes == picture.bytes);
}

} // namespace

TEST_CASE("a JPEG's pixels are kept as they are, and nothing else it says") {
    for (const JpegLook& look : {colour, progressive, grey, cmyk, ycck, with_restarts}) {
        const std::string jpeg = drawn_jpeg(look);
        check_keeps_pixels_alone(jpeg, with_segments(jpeg, jpeg_secrets()));
        const std::string::size_type scan = jpeg.rfind("\xFF\xDA");
        check_keeps_pixels_alone(jpeg, jpeg.substr(0, scan) + jpeg_secrets() + jpeg.substr(scan));
    }
}

TEST_CASE("a PNG's pixels and colours are kept as they are, and nothing else it says") {
    for (const PngLook& look : {rgb, palette, alpha, deep, interlaced, bits}) {
        const std::string png = drawn_png(look);
        REQUIRE(std::count(png.begin(), png.end(), 'D') > 0);
        // Of two that say the same the first is kept: here those that were drawn, which come after the
        // header.
        check_keeps_pixels_alone(png, with_chunks(png, png_secrets()));
        check_keeps_pixels_alone(png, with_last_chunks(png, png_secrets() + png_chunk("fdAT", "SECRET") +
                                                                png_chunk("gAMA", number(9, 4))));
        const std::string::size_type second = png.rfind("IDAT") - 4;
        check_keeps_pixels_alone(png, png.substr(0, second) + png_secrets() + png.substr(second));
    }
}

TEST_CASE("a PNG keeps the chunks that say how its colours are shown") {
    using Types = std::vector<std::string>;
    CHECK(chunk_types(read_picture(drawn_png(rgb)).bytes) == Types{"IHDR", "gAMA", "cHRM", "IDAT", "IEND"});
    CHECK(chunk_types(read_picture(drawn_png(palette)).bytes) ==
          Types{"IHDR", "PLTE", "tRNS", "IDAT", "IEND"});
    CHECK(chunk_types(read_picture(with_chunks(drawn_png(rgb), png_chunk("sRGB", "\x01"))).bytes) ==
          Types{"IHDR", "sRGB", "gAMA", "cHRM", "IDAT", "IEND"});
}

TEST_CASE("the first of two chunks that say how a PNG's colours are shown is kept") {
    const std::string png = drawn_png(rgb);
    const std::string once = with_chunks(png, png_chunk("sRGB", "\x01"));
    CHECK(read_picture(with_chunks(png, png_chunk("sRGB", "\x01") + png_chunk("sRGB", "\x02"))).bytes ==
          once);
    CHECK(read_picture(with_last_chunks(once, png_chunk("sRGB", "\x02"))).bytes == once);
    CHECK(read_picture(with_last_chunks(png, png_chunk("sRGB", "\x02"))).bytes == png);
}

TEST_CASE("a JPEG whose pixels were kept before is left unchanged") {
    for (const JpegLook& look : {colour, progressive, grey, cmyk, ycck, with_restarts}) {
        const std::string jpeg = drawn_jpeg(look);
        CHECK(read_picture(jpeg).bytes == jpeg);
    }
}

TEST_CASE("the thumbnail of a JPEG is dropped, its JFIF segment kept") {
    const std::string jpeg = drawn_jpeg(colour);
    REQUIRE(jpeg.substr(2, 4) == "\xFF\xE0\0\x10"s);
    const std::string thumbnail =
        jpeg_segment(0xE0, "JFIF\0\x01\x02\x01\0\x48\0\x48\x02\x01SECRET"s) + jpeg.substr(2 + 18);
    const std::string kept = read_picture(jpeg.substr(0, 2) + thumbnail).bytes;
    CHECK(kept.substr(0, 20) == "\xFF\xD8\xFF\xE0\0\x10JFIF\0\x01\x02\x01\0\x48\0\x48\0\0"s);
    CHECK(kept.substr(20) == jpeg.substr(20));
}

TEST_CASE("the Adobe segment of a JPEG is kept without what follows its twelve bytes") {
    const std::string jpeg = drawn_jpeg(ycck);
    const std::string::size_type adobe = jpeg.find("\xFF\xEE\0\x0E"s
                                                   "Adobe");
    REQUIRE(adobe != std::string::npos);
    const std::string longer = jpeg.substr(0, adobe) +
                               jpeg_segment(0xEE, jpeg.substr(adobe + 4, 12) + "SECRET") +
                               jpeg.substr(adobe + 16);
    CHECK(read_picture(longer).bytes == jpeg);
}

TEST_CASE("what follows the end of a picture is dropped") {
    for (const std::string& file : {drawn_jpeg(colour), drawn_jpeg(progressive), drawn_png(rgb)}) {
        const std::string kept = read_picture(file).bytes;
        CHECK(read_picture(file + "SECRET").bytes == kept);
        CHECK(read_picture(file + drawn_jpeg(grey)).bytes == kept);
    }
}

TEST_CASE("bytes that fill up a JPEG before a marker are dropped") {
    const std::string jpeg = drawn_jpeg(with_restarts);
    const std::string::size_type scan = jpeg.find("\xFF\xDA");
    const std::string filled = jpeg.substr(0, 2) + "\xFF\xFF" + jpeg.substr(2, scan - 2) + "\xFF" +
                               jpeg.substr(scan, jpeg.size() - 2 - scan) + "\xFF\xFF\xFF\xD9";
    CHECK(read_picture(filled).bytes == jpeg);
}

TEST_CASE("only the orientation is kept, and the size is the one shown") {
    const std::string jpeg = drawn_jpeg(colour);
    const std::string png = drawn_png(rgb);
    for (const bool least_first : {false, true})
        for (std::uint32_t orientation = 1; orientation <= 8; ++orientation) {
            CAPTURE(orientation, least_first);
            const std::string exif = camera_exif(orientation, least_first);
            const std::string kept_exif = orientation == 1 ? "" : bare_exif(orientation);
            const std::string turned_jpeg = with_segments(jpeg, jpeg_exif(exif));
            for (const std::string& file : {turned_jpeg, with_chunks(png, png_chunk("eXIf", exif)),
                                            with_last_chunks(png, png_chunk("eXIf", exif))}) {
                const Picture picture = read_picture(file);
                CHECK(picture.width == (orientation < 5 ? 40 : 24));
                CHECK(picture.height == (orientation < 5 ? 24 : 40));
                CHECK(picture.bytes.find("SECRET") == std::string::npos);
                std::optional<Decoded> expected = decoded(file);
                REQUIRE(expected.has_value());
                const bool is_jpeg = picture.kind == PictureKind::jpeg;
                expected->exif = (is_jpeg && orientation != 1 ? "Exif\0\0"s : ""s) + kept_exif;
                CHECK(decoded(picture.bytes) == expected);
                CHECK(read_picture(picture.bytes).bytes == picture.bytes);
            }
        }
}

TEST_CASE("an orientation that can't be understood is ignored") {
    const std::string good = camera_exif(6);
    REQUIRE(orientation_in(good) == Orientation::quarter_turn);
    for (std::size_t size = 0; size < 32; ++size) // the tag's value is in the bytes 30 and 31
        CHECK(orientation_in(std::string_view(good).substr(0, size)) == Orientation::as_stored);
    CHECK(orientation_in(std::string_view(good).substr(0, 32)) == Orientation::quarter_turn);
    for (const std::uint32_t value : {0u, 9u, 255u, 65535u})
        CHECK(orientation_in(camera_exif(value)) == Orientation::as_stored);
    const auto changed = [&](std::size_t at, const std::string& bytes) {
        std::string exif = good;
        return exif.replace(at, bytes.size(), bytes);
    };
    CHECK(orientation_in(changed(0, "IM")) == Orientation::as_stored);
    CHECK(orientation_in(changed(3, "\x2B")) == Orientation::as_stored);
    CHECK(orientation_in(changed(4, "\xFF\xFF\xFF\xFF")) == Orientation::as_stored);
    CHECK(orientation_in(changed(4, "\0\0\0\0"s)) == Orientation::as_stored);
    CHECK(orientation_in(changed(24, "\0\x04"s)) == Orientation::as_stored);     // a long
    CHECK(orientation_in(changed(26, "\0\0\0\x02"s)) == Orientation::as_stored); // two of them
    CHECK(orientation_in(changed(8, "\xFF\xFF")) == Orientation::quarter_turn);  // found before the end
}

TEST_CASE("the first Exif of a picture is the one that counts") {
    const std::string two = jpeg_exif(camera_exif(1)) + jpeg_exif(camera_exif(6));
    CHECK(read_picture(with_segments(drawn_jpeg(colour), two)).width == 40);
    const std::string both = png_chunk("eXIf", camera_exif(1)) + png_chunk("eXIf", camera_exif(6));
    CHECK(read_picture(with_chunks(drawn_png(rgb), both)).width == 40);
}

TEST_CASE("Exif 2.3 (CIPA DC-008), tag 0x0112, from memory: where the first row and column are shown",
          "[reference]") {
    struct Shown {
        int value;
        std::string first_row;
        std::string first_column;
    };
    const std::vector<Shown> table{{1, "top", "left"},     {2, "top", "right"},  {3, "bottom", "right"},
                                   {4, "bottom", "left"},  {5, "left", "top"},   {6, "right", "top"},
                                   {7, "right", "bottom"}, {8, "left", "bottom"}};
    const auto shown = [](Orientation orientation) -> std::pair<std::string, std::string> {
        switch (orientation) {
        case Orientation::as_stored:
            return {"top", "left"};
        case Orientation::left_to_right:
            return {"top", "right"};
        case Orientation::half_turn:
            return {"bottom", "right"};
        case Orientation::top_to_bottom:
            return {"bottom", "left"};
        case Orientation::transposed:
            return {"left", "top"};
        case Orientation::quarter_turn: // clockwise: what was at the top comes to the right
            return {"right", "top"};
        case Orientation::transverse:
            return {"right", "bottom"};
        case Orientation::three_quarter_turn:
            return {"left", "bottom"};
        }
        return {};
    };
    for (const Shown& row : table) {
        const auto orientation = static_cast<Orientation>(row.value);
        CHECK(shown(orientation) == std::pair(row.first_row, row.first_column));
        CHECK(swaps_sides(orientation) == (row.first_row == "left" || row.first_row == "right"));
        CHECK(orientation_in(exif_of(orientation)) == orientation);
    }
}
