#include "view/figure/lettering.hpp"

#include "catch.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

using Lines = std::vector<std::string>;

const std::string ellipsis = "\xE2\x80\xA6";

/// Of words of any width, some of them not of this alphabet.
std::string random_text(std::mt19937& dice) {
    const std::string pieces[] = {" ", "i",    "mm",  "W", "topic", "\xC3\xA9", "\xE7\xA9\x8D",
                                  "-", "\x1b", "\xff"};
    std::string text;
    for (std::size_t i = dice() % 30; i > 0; --i)
        text += pieces[dice() % std::size(pieces)];
    return text;
}

std::vector<double> ascending(std::mt19937& dice, std::size_t count) {
    std::uniform_real_distribution<double> places(-50, 250);
    std::vector<double> all(count);
    for (double& one : all)
        one = places(dice);
    std::sort(all.begin(), all.end());
    return all;
}

double cost(const std::vector<double>& wanted, const std::vector<double>& at) {
    double sum = 0;
    for (std::size_t i = 0; i < wanted.size(); ++i)
        sum += (wanted[i] - at[i]) * (wanted[i] - at[i]);
    return sum;
}

/// Whether some labels side by side could be moved together for less.
bool can_be_bettered(const std::vector<double>& wanted, const std::vector<double>& at, double gap, double low,
                     double high) {
    for (std::size_t first = 0; first < at.size(); ++first)
        for (std::size_t last = first; last < at.size(); ++last)
            for (const double step : {-0.01, 0.01}) {
                std::vector<double> moved = at;
                for (std::size_t i = first; i <= last; ++i)
                    moved[i] += step;
                bool is_allowed = moved.front() >= low && moved.back() <= high;
                for (std::size_t i = 1; i < moved.size(); ++i)
                    is_allowed = is_allowed && moved[i] - moved[i - 1] >= gap;
                if (is_allowed && cost(wanted, moved) < cost(wanted, at) - 1e-6)
                    return true;
            }
    return false;
}

} // namespace

TEST_CASE("more text is wider, and foreign letters are taken for wide ones") {
    CHECK(text_width("") == 0);
    CHECK(text_width("ab") > text_width("a"));
    CHECK(text_width("aa") == 2 * text_width("a"));
    CHECK(text_width("m") > text_width("n"));
    CHECK(text_width("\xE7\xA9\x8D") >= 12);
}

TEST_CASE("what is written out is measured as it is shown") {
    CHECK(text_width("\x1b") == text_width("\\x1b"));
}

TEST_CASE("text is cut only where it is too wide") {
    CHECK(cut_to_width("vectors", text_width("vectors")) == "vectors");
    CHECK(cut_to_width("vectors", text_width("vectors") - 0.5) == "vect" + ellipsis);
    CHECK(cut_to_width("of a", text_width("of ") + text_width(ellipsis)) == "of a");
    CHECK(cut_to_width("of moments", text_width("of ") + text_width(ellipsis)) == "of" + ellipsis);
}

TEST_CASE("cut text fits, is whole UTF-8 and begins as the text does") {
    std::mt19937 dice(5);
    for (int i = 0; i < 3000; ++i) {
        const std::string text = random_text(dice);
        const double width = 20 + static_cast<int>(dice() % 150);
        const std::string cut = cut_to_width(text, width);
        REQUIRE(text_width(cut) <= width);
        REQUIRE(is_utf8(cut));
    }
}

TEST_CASE("lines are broken at blanks, and the last one takes what is left") {
    const double width = text_width("trigonometric");
    CHECK(lines_of_width("trigonometric identities", width, 2) == Lines{"trigonometric", "identities"});
    CHECK(lines_of_width("sums of series", width, 2) == Lines{"sums of", "series"});
    CHECK(lines_of_width("vectors", width, 2) == Lines{"vectors"});
    CHECK(lines_of_width("trigonometric identities and equations", width, 2) ==
          Lines{"trigonometric", "identities" + ellipsis});
    CHECK(lines_of_width("", width, 2).empty());
}

TEST_CASE("no line is wider or more than asked for") {
    std::mt19937 dice(6);
    for (int i = 0; i < 3000; ++i) {
        const double width = 30 + static_cast<int>(dice() % 150);
        const std::size_t most = 1 + dice() % 3;
        const Lines lines = lines_of_width(random_text(dice), width, most);
        REQUIRE(lines.size() <= most);
        for (const std::string& line : lines)
            REQUIRE(text_width(line) <= width);
    }
}

TEST_CASE("labels with room between them stand where they are wanted") {
    const std::vector<PlacedLabel> placed = place_apart({10, 30, 44}, 14, 0, 100);
    REQUIRE(placed.size() == 3);
    CHECK(placed[0].at == 10);
    CHECK(placed[1].at == 30);
    CHECK(placed[2].at == 44);
}

TEST_CASE("labels that want the same place move apart evenly") {
    const std::vector<PlacedLabel> placed = place_apart({50, 50}, 14, 0, 100);
    CHECK(placed[0].at == 43);
    CHECK(placed[1].at == 57);
}

TEST_CASE("a label at the edge moves inwards and pushes the next") {
    const std::vector<PlacedLabel> placed = place_apart({-5, 3}, 14, 0, 100);
    CHECK(placed[0].at == 0);
    CHECK(placed[1].at == 14);
}

TEST_CASE("labels keep their order, the gap and the ends, and can't stand nearer to where they are wanted") {
    std::mt19937 dice(7);
    for (int i = 0; i < 400; ++i) {
        const std::size_t count = 1 + dice() % 9;
        const std::vector<double> wanted = ascending(dice, count);
        const double gap = 4 + static_cast<int>(dice() % 20);
        const std::vector<PlacedLabel> placed = place_apart(wanted, gap, 0, 200);
        REQUIRE(placed.size() == count);
        std::vector<double> at;
        for (std::size_t label = 0; label < count; ++label) {
            REQUIRE(placed[label].label == label);
            REQUIRE((placed[label].at > -1e-9 && placed[label].at < 200 + 1e-9));
            REQUIRE((at.empty() || placed[label].at - at.back() > gap - 1e-9));
            at.push_back(placed[label].at);
        }
        REQUIRE_FALSE(can_be_bettered(wanted, at, gap, 0, 200));
    }
}

TEST_CASE("where there is no room for all labels, evenly chosen ones stay with the first and the last") {
    const std::vector<PlacedLabel> placed = place_apart({1, 2, 3, 4, 5, 6, 7}, 10, 0, 30);
    REQUIRE(placed.size() == 4);
    CHECK(placed[0].label == 0);
    CHECK(placed[1].label == 2);
    CHECK(placed[2].label == 4);
    CHECK(placed[3].label == 6);
    CHECK(placed[3].at == 30);
    CHECK(place_apart({1, 2}, 10, 0, 5).size() == 1);
    CHECK(place_apart({}, 10, 0, 5).empty());
}
