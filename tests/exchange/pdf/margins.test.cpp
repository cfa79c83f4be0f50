#include "exchange/pdf/margins.hpp"

#include "printed/pages.hpp"

#include "catch.hpp"

#include <utility>
#include <vector>

using namespace inkturn;

namespace {

constexpr PageStrip whole_strip{0, Points(90), Points(250), Points(0), Points(600)};

PrintedPage printed(std::vector<PrintedWord> words) {
    return {Points(600), Points(800), std::move(words)};
}

} // namespace

TEST_CASE("words that run up the margins are left out of the strip") {
    const PrintedPage page = printed({{"NOT", box(10, 500, 22, 540)},
                                      {"DO", box(10, 200, 22, 218)},
                                      {"WRITE", box(10, 100, 22, 160)},
                                      {"7", box(50, 110, 56, 122)},
                                      {"Find", box(70, 110, 95, 122)},
                                      {"(4)", box(520, 130, 536, 142)},
                                      {"WRITE", box(575, 600, 587, 660)}});
    const PageStrip strip = between_margins(whole_strip, page);
    CHECK(strip.left == Points(23));
    CHECK(strip.right == Points(574));
    CHECK(strip.top == Points(90));
    CHECK(strip.bottom == Points(250));
    const PageStrip column = between_margins({0, Points(90), Points(250), Points(40), Points(300)}, page);
    CHECK(column.left == Points(40));
    CHECK(column.right == Points(300));
}

TEST_CASE("crop marks at the page's sides are left out of the strip") {
    const PrintedPage page = printed({{"+", box(12, 110, 20, 122)},
                                      {"Find", box(70, 110, 95, 122)},
                                      {"(4)", box(520, 130, 536, 142)},
                                      {"+", box(580, 110, 588, 122)}});
    const PageStrip strip = between_margins(whole_strip, page);
    CHECK(strip.left == Points(21));
    CHECK(strip.right == Points(579));
}

TEST_CASE("a strip without such words at the edges, or with others there, stays as it is") {
    const auto with = [](const std::vector<PrintedWord>& more) {
        std::vector<PrintedWord> words{{"Find", box(70, 110, 95, 122)}, {"(4)", box(520, 130, 536, 142)}};
        words.insert(words.end(), more.begin(), more.end());
        return between_margins(whole_strip, printed(words));
    };
    const PrintedWord turned{"WRITE", box(28, 300, 40, 360)};
    REQUIRE(with({turned}).left == Points(41));
    for (const PageStrip& strip :
         {with({}), with({{"speed", box(100, 120, 110, 180)}}), with({{"l", box(10, 100, 12, 112)}}),
          with({turned, {"7", box(30, 110, 36, 122)}}), with({turned, {"10a", box(35, 110, 50, 122)}})}) {
        CHECK(strip.left == Points(0));
        CHECK(strip.right == Points(600));
    }
}
