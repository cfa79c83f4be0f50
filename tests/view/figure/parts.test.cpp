#include "view/figure/figures.hpp"

#include "dice.hpp"
#include "view/figure/chart_checks.hpp"
#include "view/text/random_name.hpp"

#include <random>
#include <string>
#include <vector>

using namespace inkturn;
using inkturn::test::pick;

TEST_CASE("nothing in the figure of parts covers other text or leaves it") {
    std::mt19937 dice(8);
    for (int i = 0; i < 200; ++i) {
        const int candidates = dice() % 8 == 0 ? 0 : pick(dice, 0, dice() % 4 == 0 ? 4000 : 30);
        std::vector<PartEarned> parts;
        for (int count = pick(dice, 0, 70); count > 0; --count) {
            const int max = 1 + pick(dice, 0, 499);
            parts.push_back({dice() % 4 == 0 ? random_name(dice) : std::to_string(count) + "b", Marks(max),
                             Marks(pick(dice, 0, candidates * max))});
        }
        const Chart chart = parts_chart("parts", parts, static_cast<std::size_t>(candidates));
        check_room(chart);
        check_table(chart, parts.size());
    }
}

TEST_CASE("a part's bars are the share earned and the share lost, together the whole axis") {
    const Chart chart = parts_chart("parts", {{"7b", Marks(4), Marks(15)}}, 5);
    const Box earned = rects_of(chart.svg, "solid").back();
    const Box gone = rects_of(chart.svg, "outline").back();
    const std::string base = lines_with(chart.svg, "<line x1").front();
    const std::string whole = lines_with(chart.svg, "<line class=\"grid\"").back();
    const double length = number(whole, "x1") - number(base, "x1");
    CHECK(is_near(earned.left, number(base, "x1")));
    CHECK(is_near(earned.right - earned.left, 0.75 * length));
    CHECK(is_near(gone.left, earned.right));
    CHECK(is_near(gone.right, number(whole, "x1")));
}

TEST_CASE("a part of which all or nothing was earned has one bar") {
    const std::string svg =
        parts_chart("parts", {{"1", Marks(4), Marks(8)}, {"2", Marks(4), Marks(0)}}, 2).svg;
    CHECK(rects_of(svg, "solid").size() == 2); // the first is the legend's
    CHECK(rects_of(svg, "outline").size() == 2);
}

TEST_CASE("the figure of parts says in words and numbers what it shows") {
    const std::vector<PartEarned> parts{
        {"1", Marks(5), Marks(14)}, {"2a", Marks(2), Marks(1)}, {"2b", Marks(12), Marks(20)}};
    const Chart chart = parts_chart("parts", parts, 3);
    CHECK(chart.alternative ==
          "3 parts, 3 candidates. Lowest facility 17% in 2a, highest 93% in 1; most marks lost in 2b, a mean "
          "of 5.3.");
    CHECK(chart.table.rows == std::vector<std::vector<std::string>>{{"1", "5", "4.67", "93%", "1"},
                                                                    {"2a", "2", "0.33", "17%", "5"},
                                                                    {"2b", "12", "6.67", "56%", "16"}});
    CHECK(holds(chart.svg, ">5.3</text>"));
    CHECK(parts_chart("parts", parts, 0).table.rows[1] == std::vector<std::string>{"2a", "2", "-", "-", "-"});
}

TEST_CASE("of too many parts the first are drawn and all are in the table") {
    std::vector<PartEarned> parts;
    for (int i = 1; i <= 65; ++i)
        parts.push_back({std::to_string(i), Marks(2), Marks(3)});
    const Chart chart = parts_chart("parts", parts, 3);
    CHECK(rects_of(chart.svg, "solid").size() == max_part_rows + 1);
    CHECK(chart.table.rows.size() == 65);
    CHECK(holds(chart.alternative, "60 parts, of 65 in the table, 3 candidates."));
}

TEST_CASE("there is a figure of parts where there is none, or nobody has sat them") {
    CHECK(parts_chart("a", {}, 4).alternative == "No part.");
    CHECK(parts_chart("a", {{"1", Marks(3), Marks(0)}}, 0).alternative == "1 part. No candidate.");
}

TEST_CASE("foreign text is escaped in the figure of parts") {
    const std::string html = to_html(parts_chart("parts", {{"</svg><script>", Marks(3), Marks(4)}}, 2));
    CHECK_FALSE(holds(html, "<script"));
    CHECK(holds(html, "&lt;/svg&gt;&lt;script&gt;</th>"));
}
