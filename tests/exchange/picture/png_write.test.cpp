#include "exchange/picture/png_write.hpp"

#include "catch.hpp"
#include "exchange/picture/drawn_pictures.hpp"
#include "exchange/picture/picture.hpp"

#include <algorithm>
#include <random>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// What is seen of a raster in sixteen greys, two pixels a byte.
std::vector<unsigned char> packed(const Raster& raster) {
    std::vector<unsigned char> bytes;
    for (std::size_t y = 0; y < raster.height; ++y)
        for (std::size_t x = 0; x < raster.width; x += 2) {
            const auto level = [&](std::size_t at) {
                return at < raster.width ? static_cast<unsigned>((raster.row(y)[at] + 8) / 17) : 0u;
            };
            bytes.push_back(static_cast<unsigned char>(level(x) << 4 | level(x + 1)));
        }
    return bytes;
}

} // namespace

TEST_CASE("a picture that was cut is one that picture add takes, with the same greys") {
    std::mt19937 dice(6);
    for (int round = 0; round < 100; ++round) {
        Raster raster = blank_raster(1 + dice() % 40, 1 + dice() % 40);
        for (std::uint8_t& pixel : raster.pixels)
            pixel = static_cast<std::uint8_t>(dice() % 256);
        const Picture picture = read_picture(png_of(raster));
        CHECK(picture.kind == PictureKind::png);
        CHECK(picture.width == raster.width);
        CHECK(picture.height == raster.height);
        CHECK(picture.bytes == png_of(raster));
        const Picture written = png_picture(raster);
        CHECK(written.kind == picture.kind);
        CHECK(written.width == picture.width);
        CHECK(written.height == picture.height);
        CHECK(written.bytes == picture.bytes);
        const auto seen = decoded_png(picture.bytes);
        REQUIRE(seen.has_value());
        CHECK(seen->pixels == packed(raster));
    }
}

TEST_CASE("a picture that would be above the limits is not written") {
    CHECK_THROWS_AS(png_picture(blank_raster(PictureLimits().side + 1, 1)), Error);
    CHECK(png_picture(blank_raster(PictureLimits().side, 1)).width == PictureLimits().side);
}

TEST_CASE("black stays black and white stays white") {
    Raster raster = blank_raster(2, 1);
    raster.pixels[0] = 0;
    CHECK(decoded_png(png_of(raster))->pixels == std::vector<unsigned char>{0x0F});
}

TEST_CASE("a page of print takes little room") {
    Raster page = blank_raster(1240, 1754);
    for (std::size_t y = 100; y < 1700; y += 40)
        for (std::size_t x = 100; x < 1100; x += 9)
            std::fill_n(page.row(y) + x, 5, std::uint8_t{0});
    CHECK(png_of(page).size() < 20'000);
}
