#include "exchange/pdf/question_picture.hpp"

#include "catch.hpp"
#include "printed/pages.hpp"

#include <algorithm>
#include <random>

namespace {

using namespace inkturn;

/// Two pixels a millimetre, so that what is drawn below is easily counted; no least width.
QuestionCut plain_cut() {
    QuestionCut cut{PixelsPerMillimetre(2)};
    cut.min_width = Millimetres(0);
    return cut;
}

constexpr std::size_t edge = 2; ///< pixels of white round a picture

void fill(Raster& raster, std::size_t left, std::size_t top, std::size_t right, std::size_t bottom) {
    for (std::size_t y = top; y < bottom; ++y)
        std::fill(raster.row(y) + left, raster.row(y) + right, std::uint8_t{0});
}

/// A line of text 3 mm tall, over these columns: letters with gaps.
void write(Raster& raster, std::size_t left, std::size_t right, std::size_t top) {
    for (std::size_t x = left; x < right; x += 4)
        fill(raster, x, top, std::min(x + 3, right), top + 6);
    fill(raster, right - 1, top, right, top + 6);
}

void rule(Raster& raster, std::size_t top, std::size_t left = 20, std::size_t right = 180) {
    fill(raster, left, top, right, top + 1);
}

void dots(Raster& raster, std::size_t top) {
    for (std::size_t x = 20; x < 180; x += 3)
        fill(raster, x, top, x + 1, top + 1);
}

std::size_t ink_in(const Raster& raster) {
    return static_cast<std::size_t>(std::count_if(raster.pixels.begin(), raster.pixels.end(),
                                                  [](std::uint8_t pixel) { return pixel < ink_below; }));
}

std::size_t ink_in(const std::vector<Raster>& rasters) {
    std::size_t sum = 0;
    for (const Raster& raster : rasters)
        sum += ink_in(raster);
    return sum;
}

std::vector<Raster> pictures_of(std::vector<Raster> strips, const QuestionCut& cut = plain_cut()) {
    std::vector<Raster> pictures{blank_raster(3, 3)}; // of another question
    paint_question(strips, cut, pictures);
    return pictures;
}

/// The only picture of these strips.
Raster picture_of(std::vector<Raster> strips, const QuestionCut& cut = plain_cut()) {
    const std::vector<Raster> pictures = pictures_of(std::move(strips), cut);
    REQUIRE(pictures.size() == 1);
    return pictures.front();
}

/// A page 100 mm wide with a line of text, then what a test draws, then another line.
struct Page {
    Raster raster = blank_raster(200, 160);
    Page() {
        write(raster, 20, 180, 10);
        write(raster, 20, 120, 150);
    }
};

constexpr std::size_t page_text_height = 2 * 6 + 6; ///< both lines with 3 mm between them

/// Of a printed() page, from its left edge to its right one.
} // namespace

TEST_CASE("white round a question goes but for an edge") {
    Raster strip = blank_raster(200, 100);
    write(strip, 50, 120, 30);
    const Raster picture = picture_of({strip});
    CHECK(picture.width == 70 + 2 * edge);
    CHECK(picture.height == 6 + 2 * edge);
    CHECK(ink_in(picture) == ink_in(strip));
    CHECK(picture.row(edge)[edge] == 0);
}

TEST_CASE("strips keep their place beside each other") {
    Raster upper = blank_raster(200, 40), lower = blank_raster(200, 40);
    write(upper, 30, 60, 10);
    write(lower, 90, 150, 5);
    const Raster picture = picture_of({upper, lower});
    CHECK(picture.width == 120 + 2 * edge);
    CHECK(picture.height == 6 + 6 + 6 + 2 * edge);
    CHECK(picture.row(edge)[edge] == 0);
    CHECK(picture.row(edge)[edge + 60] == 255);
    CHECK(picture.row(edge + 12)[edge + 60] == 0);
    CHECK(picture.row(edge + 12)[edge] == 255);
}

TEST_CASE("a blank of up to six millimetres stays, a longer one is made three") {
    for (const std::size_t blank : {1u, 6u, 11u, 12u, 13u, 40u}) {
        Raster strip = blank_raster(200, 100);
        write(strip, 20, 180, 10);
        write(strip, 20, 180, 16 + blank);
        CHECK(picture_of({strip}).height == 2 * edge + 12 + (blank <= 12 ? blank : 6));
    }
}

TEST_CASE("lines to write on go, drawn through or dotted") {
    Page ruled, dotted, two;
    for (std::size_t y = 40; y <= 136; y += 16) {
        rule(ruled.raster, y);
        dots(dotted.raster, y);
    }
    rule(two.raster, 60);
    rule(two.raster, 80);
    const std::size_t text = ink_in(Page().raster);
    for (const Page* page : {&ruled, &dotted, &two}) {
        const Raster picture = picture_of({page->raster});
        CHECK(ink_in(picture) == text);
        CHECK(picture.height == 2 * edge + page_text_height);
    }
}

TEST_CASE("a single line, a double line and unevenly spaced lines stay") {
    Page alone, double_line, uneven;
    rule(alone.raster, 60);
    rule(double_line.raster, 60);
    rule(double_line.raster, 64);
    rule(uneven.raster, 40);
    rule(uneven.raster, 60);
    rule(uneven.raster, 84);
    CHECK(ink_in(picture_of({alone.raster})) == ink_in(alone.raster));
    CHECK(ink_in(picture_of({double_line.raster})) == ink_in(double_line.raster));
    CHECK(ink_in(picture_of({uneven.raster})) == ink_in(Page().raster) + 160); // the third has no fellow
}

TEST_CASE("lines with something between them stay: a table, a dashed axis, a short answer") {
    Page table, sided, dashes, short_lines;
    for (std::size_t y = 40; y <= 120; y += 20) {
        rule(table.raster, y);
        write(table.raster, 30, 60, y + 8);
        rule(sided.raster, y);
        rule(short_lines.raster, y, 100, 180);
        for (std::size_t x = 20; x < 180; x += 20)
            fill(dashes.raster, x, y, x + 10, y + 1);
    }
    fill(sided.raster, 40, 40, 41, 120);
    for (const Page* page : {&table, &sided, &dashes, &short_lines})
        CHECK(ink_in(picture_of({page->raster})) == ink_in(page->raster));
}

TEST_CASE("a frame's upright lines go, a table's inner ones and a graph's stay") {
    Raster framed = blank_raster(200, 160);
    write(framed, 30, 150, 20);
    const std::size_t text = ink_in(framed);
    fill(framed, 5, 0, 6, 160);
    fill(framed, 194, 0, 195, 160);
    CHECK(ink_in(picture_of({framed})) == text);
    CHECK(picture_of({framed}).width == 120 + 2 * edge);

    Raster graph = blank_raster(200, 160);
    write(graph, 10, 16, 20);
    fill(graph, 60, 0, 61, 158);
    write(graph, 100, 140, 20);
    CHECK(ink_in(picture_of({graph})) == ink_in(graph));
}

TEST_CASE("what sticks into a strip by a little goes, by more it stays") {
    Raster strip = blank_raster(200, 100);
    write(strip, 50, 120, 30);
    const std::size_t text = ink_in(strip);
    fill(strip, 60, 0, 80, 1);
    fill(strip, 60, 99, 80, 100);
    CHECK(ink_in(picture_of({strip})) == text);
    fill(strip, 60, 98, 80, 99);
    CHECK(ink_in(picture_of({strip})) == text + 40);
}

TEST_CASE("strips without ink give no picture") {
    CHECK(pictures_of({}).empty());
    CHECK(pictures_of({Raster(), blank_raster(30, 40)}).empty());
    Raster faint = blank_raster(30, 40);
    std::fill(faint.pixels.begin(), faint.pixels.end(), std::uint8_t{230});
    CHECK(pictures_of({faint}).empty());
}

TEST_CASE("narrow questions are as wide as the others, the white at their right") {
    Raster strip = blank_raster(200, 40);
    write(strip, 50, 60, 10);
    QuestionCut cut = plain_cut();
    cut.min_width = Millimetres(60);
    const Raster picture = picture_of({strip}, cut);
    CHECK(picture.width == 120);
    CHECK(picture.row(edge)[edge] == 0);
}

TEST_CASE("a tall question is broken where a page ended, or at the longest blank") {
    std::vector<Raster> strips(3, blank_raster(100, 60));
    for (Raster& strip : strips) {
        write(strip, 0, 100, 0);
        write(strip, 0, 100, 40);
    }
    QuestionCut cut = plain_cut();
    cut.max_height_ratio = 0.5; // 52 pixels: two strips of 18 with 6 between them
    const std::vector<Raster> pictures = pictures_of(strips, cut);
    REQUIRE(pictures.size() == 2);
    CHECK(pictures[0].height == 2 * edge + 18 + 6 + 18);
    CHECK(pictures[1].height == 2 * edge + 18);
    CHECK(pictures[0].width == pictures[1].width);
    CHECK(ink_in(pictures) == ink_in(strips));
}

TEST_CASE("a tall page is broken at the longest blank of the lower half, not as late as can be") {
    Raster strip = blank_raster(100, 60);
    for (const std::size_t top : {0u, 8u, 16u, 24u, 40u, 48u})
        write(strip, 0, 100, top);
    QuestionCut cut = plain_cut();
    cut.max_height_ratio = 0.5; // 52 pixels, five lines
    const std::vector<Raster> pictures = pictures_of({strip}, cut);
    REQUIRE(pictures.size() == 2);
    CHECK(pictures[0].height == 2 * edge + 30);
    CHECK(pictures[1].height == 2 * edge + 14);
}

TEST_CASE("what has no blank is not broken") {
    Raster figure = blank_raster(100, 300);
    fill(figure, 0, 0, 100, 300);
    CHECK(picture_of({figure}).height == 300 + 2 * edge);
}

TEST_CASE("no ink is lost from pages without lines, however they are broken") {
    std::mt19937 dice(11);
    for (int round = 0; round < 150; ++round) {
        std::vector<Raster> strips(1 + dice() % 3, blank_raster(120, 150));
        for (Raster& strip : strips)
            for (std::size_t pieces = dice() % 12; pieces > 0; --pieces) {
                const std::size_t left = dice() % 100, top = 1 + dice() % 138;
                fill(strip, left, top, left + 3 + dice() % 17, top + 3 + dice() % 7);
            }
        QuestionCut cut = plain_cut();
        cut.max_height_ratio = 0.2 + 0.1 * static_cast<double>(dice() % 10);
        const std::vector<Raster> pictures = pictures_of(strips, cut);
        REQUIRE(ink_in(pictures) == ink_in(strips));
        for (const Raster& picture : pictures) {
            REQUIRE(picture.pixels.size() == picture.width * picture.height);
            REQUIRE(picture.width == pictures.front().width);
            REQUIRE(ink_in(picture) > 0);
        }
    }
}

namespace {

/// A page of 600 by 800 points, a pixel each, with crop marks in its corners but for the last few and signs
/// in the middle of its sides.
Raster drawn_with_crop_marks(std::size_t corners = 4) {
    Raster page = blank_raster(600, 800);
    for (const std::size_t x : {20U, 579U})
        for (const std::size_t y : {20U, 779U}) {
            if (corners-- == 0)
                return page;
            fill(page, x, y < 400 ? 0 : 785, x + 1, y < 400 ? 15 : 800);
            fill(page, x < 300 ? 0 : 585, y, x < 300 ? 15 : 600, y + 1);
        }
    for (const std::size_t x : {4U, 582U})
        fill(page, x, 395, x + 12, 407);
    for (const std::size_t y : {4U, 782U})
        fill(page, 295, y, 307, y + 12);
    return page;
}

PageStrip cut_from(const Raster& drawn, const PageStrip& strip) {
    PrintedPage page{Points(600), Points(800), {}};
    page.words = {{"Find", box(60, 60, 95, 72)}, {"(4)", box(520, 700, 536, 712)}};
    return within_crop_marks(strip, page, drawn, PixelsPerPoint(1));
}

} // namespace

TEST_CASE("drawn crop marks are left out of the strip, and nothing that reaches the words") {
    const PageStrip whole{0, Points(0), Points(800), Points(0), Points(600)};
    const PageStrip inner = cut_from(drawn_with_crop_marks(), whole);
    CHECK(inner.left == Points(40));
    CHECK(inner.top == Points(40));
    CHECK(inner.right == Points(560));
    CHECK(inner.bottom == Points(760));
    const PageStrip middle =
        cut_from(drawn_with_crop_marks(), {0, Points(90), Points(250), Points(50), Points(300)});
    CHECK(middle.left == Points(50));
    CHECK(middle.right == Points(300));
    CHECK(middle.top == Points(90));
    Raster wide = drawn_with_crop_marks();
    fill(wide, 30, 200, 575, 300); // a figure
    const PageStrip shown = cut_from(wide, whole);
    CHECK(shown.left == Points(29));
    CHECK(shown.right == Points(576));
}

TEST_CASE("a page without marks in all its corners is left as it is") {
    const PageStrip whole{0, Points(0), Points(800), Points(0), Points(600)};
    Raster dark = blank_raster(600, 800);
    fill(dark, 0, 0, 600, 800);
    for (const Raster& page : {drawn_with_crop_marks(3), blank_raster(600, 800), blank_raster(30, 30), dark})
        CHECK(cut_from(page, whole).left == Points(0));
}
