#include "exchange/picture/photograph.hpp"

#include "catch.hpp"
#include "exchange/picture/jpeg_pixels.hpp"
#include "exchange/picture/paper_edge.hpp"

#include <cmath>
#include <cstddef>
#include <random>
#include <string>

namespace {

using namespace inkturn;

constexpr double turn_of_degree = 3.14159265358979 / 180;

/// A sheet on a desk: white with lines of writing, its middle in the middle, turned by some degrees.
struct Scene {
    std::size_t width = 600;
    std::size_t height = 800;
    double sheet_width = 400;
    double sheet_height = 560;
    double degrees = 0;
    double off_across = 0; ///< of the sheet's middle
    int desk = 70;
    int paper = 235;
};

/// Grey of a place on the sheet, from its top left corner.
int grey_on_sheet(const Scene& scene, double x, double y) {
    const bool is_writing = x > 40 && x < scene.sheet_width - 60 && y > 40 && y < scene.sheet_height - 80 &&
                            std::fmod(y, 24) < 4 && std::fmod(x, 9) < 6;
    return is_writing ? 40 : scene.paper - static_cast<int>(y / 40); // a shadow towards its foot
}

JpegPixels drawn(const Scene& scene) {
    std::mt19937 dice(3);
    JpegPixels pixels{scene.width, scene.height, 1, {}, Orientation::as_stored};
    const double turn = scene.degrees * turn_of_degree;
    for (std::size_t y = 0; y < scene.height; ++y)
        for (std::size_t x = 0; x < scene.width; ++x) {
            const double dx =
                static_cast<double>(x) - static_cast<double>(scene.width) / 2 - scene.off_across;
            const double dy = static_cast<double>(y) - static_cast<double>(scene.height) / 2;
            const double across = dx * std::cos(turn) + dy * std::sin(turn) + scene.sheet_width / 2;
            const double down = -dx * std::sin(turn) + dy * std::cos(turn) + scene.sheet_height / 2;
            const bool is_sheet =
                across >= 0 && across < scene.sheet_width && down >= 0 && down < scene.sheet_height;
            const int grey = (is_sheet ? grey_on_sheet(scene, across, down) : scene.desk) +
                             static_cast<int>(dice() % 9) - 4;
            pixels.bytes.push_back(static_cast<std::uint8_t>(grey));
        }
    return pixels;
}

std::optional<PaperCorners> corners_of(const Scene& scene) {
    JpegPixels pixels = drawn(scene);
    return paper_corners({pixels.width, pixels.height, std::move(pixels.bytes)});
}

/// At four times the size, as a photograph is looked at at a quarter of it.
Photograph taken(Scene scene) {
    scene.width *= 2;
    scene.height *= 2;
    scene.sheet_width *= 2;
    scene.sheet_height *= 2;
    return read_photograph(jpeg_of(drawn(scene)));
}

} // namespace

TEST_CASE("a sheet on a darker desk is found by its corners, straight or turned a little") {
    for (const double degrees : {0.0, 0.4, -2.0, 5.0, -8.0}) {
        Scene scene;
        scene.degrees = degrees;
        const auto corners = corners_of(scene);
        REQUIRE(corners);
        const double turn = degrees * turn_of_degree;
        const double left = 300 - 200 * std::cos(turn) + 280 * std::sin(turn);
        const double top = 400 - 200 * std::sin(turn) - 280 * std::cos(turn);
        CHECK(std::abs((*corners)[0].x - left) < 2);
        CHECK(std::abs((*corners)[0].y - top) < 2);
        CHECK(std::abs((*corners)[2].x - (600 - left)) < 2);
        CHECK(std::abs((*corners)[2].y - (800 - top)) < 2);
    }
}

TEST_CASE("what is not certain is no sheet") {
    Scene turned;
    turned.degrees = 14;
    CHECK_FALSE(corners_of(turned));
    Scene bright_desk;
    bright_desk.desk = 200;
    CHECK_FALSE(corners_of(bright_desk));
    Scene beyond; // an edge lies outside the picture
    beyond.off_across = 150;
    CHECK_FALSE(corners_of(beyond));
    Scene full;
    full.sheet_width = 700;
    full.sheet_height = 900;
    CHECK_FALSE(corners_of(full));
    Scene small;
    small.sheet_width = 180;
    small.sheet_height = 250;
    CHECK_FALSE(corners_of(small));
    CHECK_FALSE(paper_corners({10, 10, std::vector<std::uint8_t>(100, 255)}));
    CHECK_FALSE(paper_corners({100, 100, std::vector<std::uint8_t>(10'000, 255)}));
}

TEST_CASE("a sheet that is not one is left alone: a ragged edge, two sheets") {
    JpegPixels ragged = drawn({});
    std::mt19937 dice(5);
    for (std::size_t y = 0; y < ragged.height; ++y) // a hand over the left edge
        for (std::size_t x = 0; x < 100 + dice() % 60; ++x)
            ragged.bytes[y * ragged.width + x] = 70;
    CHECK_FALSE(paper_corners({ragged.width, ragged.height, ragged.bytes}));
    JpegPixels two = drawn({});
    for (std::size_t y = 300; y < 500; ++y)
        for (std::size_t x = 500; x < 590; ++x)
            two.bytes[y * two.width + x] = 235;
    CHECK_FALSE(paper_corners({two.width, two.height, two.bytes}));
}

TEST_CASE("a photograph is trimmed to its sheet and set straight") {
    Scene scene;
    scene.degrees = 3;
    const Photograph photograph = taken(scene);
    REQUIRE(photograph.trimmed);
    CHECK(photograph.picture.width > 780);
    CHECK(photograph.picture.width <= 800);
    CHECK(photograph.picture.height > 1100);
    CHECK(photograph.picture.height <= 1120);
    const JpegPixels kept = jpeg_pixels(photograph.picture.bytes, 1, 1);
    for (std::size_t y = 0; y < kept.height; ++y) // paper up to all its edges, nothing of the desk
        for (const std::size_t x : {std::size_t{1}, kept.width - 2})
            CHECK(kept.bytes[y * kept.width + x] > 150);
}

TEST_CASE("a photograph where nothing is certain keeps its pixels") {
    Scene scene;
    scene.off_across = 150;
    const std::string file = jpeg_of(drawn(scene));
    const Photograph photograph = read_photograph(file);
    CHECK_FALSE(photograph.trimmed);
    CHECK(photograph.picture.bytes == read_picture(file).bytes);
}

TEST_CASE("a photograph that was held sideways is trimmed upright") {
    const std::string upright = jpeg_of(drawn({1200, 1600, 800, 1120, 0, 0, 70, 235}));
    const std::string exif = "Exif" + std::string(2, '\0') + exif_of(Orientation::quarter_turn);
    std::string sideways = upright;
    const std::size_t size = exif.size() + 2;
    sideways.insert(2, "\xFF\xE1" +
                           std::string{static_cast<char>(size / 256), static_cast<char>(size % 256)} + exif);
    const Photograph photograph = read_photograph(sideways);
    REQUIRE(photograph.trimmed);
    CHECK(photograph.picture.width > photograph.picture.height); // its rows are shown as columns
    const JpegPixels kept = jpeg_pixels(photograph.picture.bytes, 1, 1);
    CHECK(kept.orientation == Orientation::as_stored);
    // The foot of the sheet has the shadow: turned by a quarter it lies on the left.
    const auto grey = [&](std::size_t x) { return kept.bytes[kept.height / 50 * kept.width + x]; };
    CHECK(grey(20) + 5 < grey(kept.width - 20));
}
