#include "exchange/picture/raster.hpp"

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

/// Of the first page, in points; as wide as the page unless a test says otherwise.
PageStrip strip(double top, double bottom, double left = 0, double right = 100) {
    return {0, Points(top), Points(bottom), Points(left), Points(right)};
}

/// Copied over other pixels.
Raster strip_of(const Raster& page, const PageStrip& strip, PixelsPerPoint scale) {
    Raster copied = blank_raster(7, 5);
    copy_strip(page, strip, scale, copied);
    return copied;
}

} // namespace

TEST_CASE("a strip is cut from edge to edge, in pixels") {
    const Raster cut = strip_of(numbered(4, 6), strip(1, 2), PixelsPerPoint(2));
    CHECK(cut.width == 4);
    CHECK(cut.height == 2);
    CHECK(cut.pixels == std::vector<std::uint8_t>{20, 21, 22, 23, 30, 31, 32, 33});
}

TEST_CASE("a strip of a column is cut at its sides too") {
    const Raster cut = strip_of(numbered(6, 3), strip(0, 1, 2, 5), PixelsPerPoint(1));
    CHECK(cut.width == 3);
    CHECK(cut.pixels == std::vector<std::uint8_t>{2, 3, 4});
}

TEST_CASE("a strip ends where the page does") {
    CHECK(strip_of(numbered(4, 6), strip(-5, 900, -1, 700), PixelsPerPoint(1)).pixels ==
          numbered(4, 6).pixels);
    CHECK(strip_of(numbered(4, 6), strip(7, 9), PixelsPerPoint(1)).pixels.empty());
    CHECK(strip_of(numbered(4, 6), strip(3, 3), PixelsPerPoint(1)).pixels.empty());
    CHECK(strip_of(numbered(4, 6), strip(0, 6, 5, 2), PixelsPerPoint(1)).pixels.empty());
    CHECK(strip_of(Raster(), strip(0, 6), PixelsPerPoint(1)).pixels.empty());
}

TEST_CASE("neighbouring strips share no row and leave none out") {
    std::mt19937 dice(5);
    std::uniform_real_distribution<double> anywhere(0, 40);
    const Raster page = numbered(3, 83);
    for (int round = 0; round < 500; ++round) {
        const double at = anywhere(dice);
        Raster upper = strip_of(page, strip(0, at), PixelsPerPoint(25 / 12.0));
        const Raster lower = strip_of(page, strip(at, 40), PixelsPerPoint(25 / 12.0));
        upper.pixels.insert(upper.pixels.end(), lower.pixels.begin(), lower.pixels.end());
        REQUIRE(upper.height + lower.height == page.height);
        REQUIRE(upper.pixels == page.pixels);
    }
}

TEST_CASE("ink is found wherever it is in a row") {
    for (std::size_t width = 1; width < 40; ++width)
        for (std::size_t at = 0; at <= width; ++at) {
            std::vector<std::uint8_t> row(width, ink_below);
            if (at < width)
                row[at] = ink_below - 1;
            CHECK(has_ink(row.data(), width) == (at < width));
            CHECK(first_ink(row.data(), width) == at);
            CHECK(end_of_ink(row.data(), width) == (at < width ? at + 1 : 0));
            for (std::size_t other = 0; other < at; ++other) {
                row[other] = 0;
                CHECK(first_ink(row.data(), width) == other);
                CHECK(end_of_ink(row.data(), width) == (at < width ? at : other) + 1);
                row[other] = ink_below;
            }
        }
}

TEST_CASE("a strip is cut along the nearest row without ink") {
    Raster page = blank_raster(40, 60);
    const auto ink = [&](std::size_t x, std::size_t from, std::size_t to) {
        for (std::size_t y = from; y < to; ++y)
            page.row(y)[x] = 0;
    };
    const PixelsPerPoint one(1);
    const auto cut = [&](double top, double bottom) {
        const PageStrip strip =
            cut_between_ink(page, {0, Points(top), Points(bottom), Points(0), Points(40)}, one);
        return std::pair(strip.top.value(), strip.bottom.value());
    };
    ink(10, 18, 25); // a numerator's letter
    CHECK(cut(20, 50) == std::pair(17.0, 50.0));
    CHECK(cut(23, 50) == std::pair(25.0, 50.0));
    CHECK(cut(17, 25) == std::pair(17.0, 25.0));
    ink(0, 0, 60); // a frame runs through all rows
    CHECK(cut(20, 50) == std::pair(17.0, 50.0));
    ink(20, 0, 60);
    for (std::size_t y = 0; y < 60; ++y)
        page.row(y)[30] = y % 2 == 0 ? 0 : 255; // dots leave no room for more than a row
    CHECK(cut(20, 50) == std::pair(17.0, 49.0));
}
