#include "view/figure/svg.hpp"

#include "view/page/page_checks.hpp"

#include <cmath>
#include <random>
#include <string>

namespace {

using namespace inkturn;

std::string drawn(const Svg& svg) {
    return svg.str(50, "Title", "Words");
}

} // namespace

TEST_CASE("a length has at most two decimals and no trailing zeros") {
    CHECK(svg_number(0) == "0");
    CHECK(svg_number(12) == "12");
    CHECK(svg_number(12.5) == "12.5");
    CHECK(svg_number(12.05) == "12.05");
    CHECK(svg_number(100.0 / 3) == "33.33");
    CHECK(svg_number(0.996) == "1");
    CHECK(svg_number(-0.25) == "-0.25");
    CHECK(svg_number(-7) == "-7");
}

TEST_CASE("a length that rounds to 0 has no sign") {
    CHECK(svg_number(-0.0) == "0");
    CHECK(svg_number(-0.004) == "0");
}

TEST_CASE("every length is read back to within half a hundredth") {
    std::mt19937 dice(11);
    std::uniform_real_distribution<double> lengths(-2000, 2000);
    for (int i = 0; i < 10000; ++i) {
        const double length = lengths(dice);
        const std::string text = svg_number(length);
        REQUIRE(std::abs(std::stod(text) - length) <= 0.005 + 1e-9);
        REQUIRE((text.find('.') == std::string::npos || text.back() != '0'));
    }
}

TEST_CASE("a drawing has a role, a title and a description that its ids tie to it") {
    CHECK(drawn(Svg("inks", 328)) ==
          "<svg id=\"inks\" class=\"chart\" role=\"img\" aria-labelledby=\"inks-title\" "
          "aria-describedby=\"inks-text\" viewBox=\"0 0 328 50\">\n<title id=\"inks-title\">Title</title>\n"
          "<desc id=\"inks-text\">Words</desc>\n</svg>\n");
}

TEST_CASE("elements stand in the order in which they were drawn") {
    Svg svg("a", 100);
    svg.line({1, 2}, {3.5, 4}, "grid");
    svg.path({{0, 1}, {2, 3}}, "curve");
    svg.rect({1, 2, 3, 4}, "band");
    svg.dot({5, 6}, 2, "share");
    svg.text({7, 8}, "words", SvgAnchor::middle, "on-solid");
    svg.text_upwards({9, 10}, "up", SvgAnchor::end);
    CHECK(holds(drawn(svg),
                "<line class=\"grid\" x1=\"1\" y1=\"2\" x2=\"3.5\" y2=\"4\"/>\n"
                "<path class=\"curve\" d=\"M0 1L2 3\"/>\n"
                "<rect class=\"band\" x=\"1\" y=\"2\" width=\"3\" height=\"4\"/>\n"
                "<circle class=\"share\" cx=\"5\" cy=\"6\" r=\"2\"/>\n"
                "<text class=\"on-solid\" x=\"7\" y=\"8\" text-anchor=\"middle\">words</text>\n"
                "<text x=\"9\" y=\"10\" text-anchor=\"end\" transform=\"rotate(-90 9 10)\">up</text>\n"
                "</svg>"));
}

TEST_CASE("a pattern is there once if an area uses it, under the drawing's own id") {
    Svg svg("a", 100);
    CHECK_FALSE(holds(drawn(svg), "<pattern"));
    svg.area({0, 0, 1, 1}, SvgFill::hatch);
    svg.area({2, 0, 1, 1}, SvgFill::hatch);
    svg.area({4, 0, 1, 1}, SvgFill::solid);
    const std::string html = drawn(svg);
    CHECK(html.find("<pattern id=\"a-hatch\"") == html.rfind("<pattern"));
    CHECK(holds(html, "fill=\"url(#a-hatch)\""));
    svg.area({6, 0, 1, 1}, SvgFill::dots);
    CHECK(holds(drawn(svg), "<pattern id=\"a-dots\""));
}

TEST_CASE("no text leaves its element") {
    const std::string hostile = "</text></svg><script>\"'&\x1b";
    const std::string shown = "&lt;/text&gt;&lt;/svg&gt;&lt;script&gt;&quot;&#39;&amp;\\x1b";
    Svg svg("a", 100);
    svg.text({0, 0}, hostile, SvgAnchor::start);
    svg.text_upwards({0, 0}, hostile, SvgAnchor::start);
    const std::string html = svg.str(1, hostile, hostile);
    CHECK_FALSE(holds(html, "<script"));
    CHECK(holds(html, ">" + shown + "</title>"));
    CHECK(holds(html, ">" + shown + "</desc>"));
    CHECK(holds(html, "y=\"0\">" + shown + "</text>"));
    CHECK(holds(html, "rotate(-90 0 0)\">" + shown + "</text>"));
}
