#include "inkturn/printed/raster.hpp"

#include "catch.hpp"

#include <random>

namespace {

using namespace inkturn;

/// Each pixel says where it stands.
Raster numbered(std::size_t width, std::size_t height) {
    Raster page = blank_raster(width, height);
    for (std::size_t y = 0; y < height; ++y)
        for (std::size_t x = 0; x < width; ++x)
            page.row(y)[x] = static_cast<std::uint8_t>(10 * y + x);
    return page;
}

} // namespace

TEST_CASE("a strip is cut from edge to edge, in pixels") {
    const Raster strip = strip_of(numbered(4, 6), {0, 1, 2}, 2);
    CHECK(strip.width == 4);
    CHECK(strip.height == 2);
    CHECK(strip.pixels == std::vector<std::uint8_t>{20, 21, 22, 23, 30, 31, 32, 33});
}

TEST_CASE("a strip of a column is cut at its sides too") {
    const Raster strip = strip_of(numbered(6, 3), {0, 0, 1, 2, 5}, 1);
    CHECK(strip.width == 3);
    CHECK(strip.pixels == std::vector<std::uint8_t>{2, 3, 4});
}

TEST_CASE("a strip ends where the page does") {
    CHECK(strip_of(numbered(4, 6), {0, -5, 900, -1, 700}, 1).pixels == numbered(4, 6).pixels);
    CHECK(strip_of(numbered(4, 6), {0, 7, 9}, 1).pixels.empty());
    CHECK(strip_of(numbered(4, 6), {0, 3, 3}, 1).pixels.empty());
    CHECK(strip_of(numbered(4, 6), {0, 0, 6, 5, 2}, 1).pixels.empty());
    CHECK(strip_of(Raster(), {0, 0, 6}, 1).pixels.empty());
}

TEST_CASE("neighbouring strips share no row and leave none out") {
    std::mt19937 dice(5);
    std::uniform_real_distribution<double> anywhere(0, 40);
    const Raster page = numbered(3, 83);
    for (int round = 0; round < 500; ++round) {
        const double at = anywhere(dice);
        Raster upper = strip_of(page, {0, 0, at}, 25 / 12.0);
        const Raster lower = strip_of(page, {0, at, 40}, 25 / 12.0);
        upper.pixels.insert(upper.pixels.end(), lower.pixels.begin(), lower.pixels.end());
        REQUIRE(upper.height + lower.height == page.height);
        REQUIRE(upper.pixels == page.pixels);
    }
}
