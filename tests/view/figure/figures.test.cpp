#include "view/figure/figures.hpp"

#include "dice.hpp"
#include "view/figure/chart_checks.hpp"
#include "view/text/random_name.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <regex>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using inkturn::test::pick;

const Day day = *read_iso_day("2026-11-25");

InkBar bar(const std::string& paper, int max, int in_time, int overtime, int corrected) {
    return {paper, day, Marks(max), Marks(in_time), Marks(overtime), Marks(corrected)};
}

InkBar random_bar(std::mt19937& dice) {
    const int max = 1 + pick(dice, 0, dice() % 4 == 0 ? 3000 : 100);
    const int in_time = pick(dice, 0, max);
    const int overtime = pick(dice, 0, max - in_time);
    return bar(random_name(dice), max, in_time, overtime, pick(dice, 0, max - in_time - overtime));
}

std::vector<GradeBand> random_bands(std::mt19937& dice) {
    std::vector<GradeBand> bands;
    for (int i = pick(dice, 0, 10); i > 0; --i) {
        const double low = pick(dice, 0, 100) / 100.0;
        const double high = std::min(1.0, low + pick(dice, 0, 10) / 100.0);
        bands.push_back(
            {dice() % 4 == 0 ? random_name(dice) : std::string(1, static_cast<char>('A' + i)), low, high});
    }
    return bands;
}

PaceCurve random_pace(std::mt19937& dice) {
    PaceCurve pace{{}, Seconds(1 + pick(dice, 0, dice() % 3 == 0 ? 200 : 40000)), Marks(pick(dice, 0, 400))};
    if (dice() % 10 == 0)
        return pace;
    int worked = 0;
    int marks = 0;
    for (int i = 0; i < 10; ++i) {
        pace.points.push_back({Seconds(worked), Marks(marks)});
        worked += pick(dice, 0, static_cast<int>(pace.allowance.count()) / 5 + 1);
        marks += pick(dice, 0, (pace.marks.count() - marks) / 2);
    }
    return pace;
}

} // namespace

TEST_CASE("nothing in the figure of the inks covers other text or leaves it") {
    std::mt19937 dice(1);
    for (int i = 0; i < 400; ++i) {
        std::vector<InkBar> bars;
        for (int count = pick(dice, 0, 20); count > 0; --count)
            bars.push_back(random_bar(dice));
        const Chart chart = ink_chart("inks", bars, random_bands(dice));
        check_room(chart);
        check_table(chart, bars.size());
    }
}

TEST_CASE("the pieces of a bar follow one another and add up to the whole axis") {
    std::mt19937 dice(2);
    for (int i = 0; i < 300; ++i) {
        const std::string svg = ink_chart("inks", {random_bar(dice)}, {}).svg;
        double bottom = 0;
        double sum = 0;
        std::vector<Box> pieces;
        for (const char* css_class : {"solid", "hatch", "dots", "outline"}) {
            const std::vector<Box> boxes = rects_of(svg, css_class); // the first is the legend's
            REQUIRE((boxes.size() == 1 || boxes.size() == 2));
            if (boxes.size() == 2)
                pieces.push_back(boxes.back());
        }
        bottom = pieces.front().bottom;
        for (const Box& piece : pieces) {
            REQUIRE(std::abs(piece.bottom - bottom) < 0.021);
            bottom = piece.top;
            sum += piece.bottom - piece.top;
        }
        REQUIRE(std::abs(sum - 190) < 0.041);
    }
}

TEST_CASE("a piece is as long as its share of the paper's marks") {
    const std::string svg = ink_chart("inks", {bar("pure-1", 50, 20, 10, 5)}, {}).svg;
    const auto length = [&](const std::string& css_class) {
        const Box box = rects_of(svg, css_class).back();
        return box.bottom - box.top;
    };
    CHECK(is_near(length("solid"), 0.4 * 190));
    CHECK(is_near(length("hatch"), 0.2 * 190));
    CHECK(is_near(length("dots"), 0.1 * 190));
    CHECK(is_near(length("outline"), 0.3 * 190));
}

TEST_CASE("a boundary band lies where the shares of its boundaries are") {
    const std::string svg = ink_chart("inks", {bar("pure-1", 50, 50, 0, 0)}, {{"A", 0.5, 0.75}}).svg;
    const Box whole = rects_of(svg, "solid").back();
    const Box band = rects_of(svg, "band").back();
    CHECK(is_near(band.bottom, (whole.top + whole.bottom) / 2));
    CHECK(is_near(band.top, whole.top + 0.25 * 190));
    CHECK(holds(svg, ">A</text>"));
}

TEST_CASE("only the last of many sittings are drawn, and all are in the table") {
    std::vector<InkBar> bars;
    for (int i = 1; i <= 20; ++i)
        bars.push_back(bar("p" + std::to_string(i), 10, 4, 0, 0));
    const Chart chart = ink_chart("inks", bars, {});
    CHECK(rects_of(chart.svg, "solid").size() == max_ink_bars + 1);
    CHECK_FALSE(holds(chart.svg, ">p4, 25 Nov<"));
    CHECK(holds(chart.svg, ">p5, 25 Nov<"));
    CHECK(holds(chart.svg, ">p20, 25 Nov<"));
    CHECK(chart.table.rows.size() == 20);
    CHECK(holds(chart.alternative, "16 sittings, the latest on the right, of 20 in the table."));
}

TEST_CASE("the figure of the inks has its contents in words and numbers") {
    const Chart chart =
        ink_chart("inks", {bar("pure-1", 75, 52, 8, 10)}, {{"A", 0.7, 0.77}, {"B", 0.6, 0.6}});
    CHECK(chart.alternative ==
          "1 sitting. pure-1 on 25 Nov 2026, out of 75 marks: 52 in time, 8 in overtime, 10 corrected, 5 "
          "unearned. Boundaries: A 70% to 77%; B 60%.");
    CHECK(chart.table.rows ==
          std::vector<std::vector<std::string>>{{"pure-1, 25 Nov 2026", "75", "52", "8", "10", "5"}});
}

TEST_CASE("nothing in the figure of the pace covers other text or leaves it") {
    std::mt19937 dice(3);
    for (int i = 0; i < 600; ++i)
        check_room(pace_chart("pace", random_pace(dice)));
}

TEST_CASE("the course of a sitting goes to the right or upwards, never both, within the axes") {
    std::mt19937 dice(4);
    const std::regex point("[ML](-?[0-9.]+) (-?[0-9.]+)");
    for (int i = 0; i < 200; ++i) {
        const std::string svg = pace_chart("pace", random_pace(dice)).svg;
        const std::string path = lines_with(svg, "<path class=\"curve\"").back();
        const std::string base = lines_with(svg, "<line x1").front();
        double x = number(base, "x1");
        double y = number(base, "y1");
        for (std::sregex_iterator at(path.begin(), path.end(), point), end; at != end; ++at) {
            const double to_x = std::stod((*at)[1]);
            const double to_y = std::stod((*at)[2]);
            REQUIRE((to_x >= x && to_y <= y && (to_x == x || to_y == y)));
            x = to_x;
            y = to_y;
        }
        REQUIRE(x <= number(base, "x2"));
    }
}

TEST_CASE("the change of ink is an upright line at the allowance, if it was used up") {
    const PaceCurve used{{{Seconds(0), Marks(0)}, {Seconds(1200), Marks(30)}, {Seconds(2400), Marks(50)}},
                         Seconds(1800),
                         Marks(50)};
    const Chart chart = pace_chart("pace", used);
    const std::string line = lines_with(chart.svg, "<line class=\"change\"").front();
    const std::string paid = lines_with(chart.svg, "<line class=\"paid\"").back();
    CHECK(number(line, "x1") == number(line, "x2"));
    CHECK(number(line, "x1") == number(paid, "x2"));
    CHECK(holds(chart.svg, ">ink changed at 30:00</text>"));
    CHECK(chart.alternative == "50 of 50 marks done after 40:00 of work; the allowance was 30:00. When the "
                               "ink changed, 30 marks were done.");
    CHECK(chart.table.rows[1] == std::vector<std::string>{"20:00", "30", "33"});

    PaceCurve short_of_it = used;
    short_of_it.points.back().worked = Seconds(1799);
    const Chart other = pace_chart("pace", short_of_it);
    CHECK_FALSE(holds(other.svg, "ink changed"));
    CHECK(holds(other.alternative, "The ink didn't change."));
}

TEST_CASE("nothing in the figure of topics covers other text or leaves it") {
    std::mt19937 dice(5);
    for (int i = 0; i < 200; ++i) {
        std::vector<TopicShare> topics;
        for (int count = pick(dice, 0, 45); count > 0; --count) {
            const double low = pick(dice, 0, 100) / 100.0;
            topics.push_back({random_name(dice), pick(dice, 0, 100) / 100.0, low, 1 - (1 - low) * 0.5,
                              static_cast<std::size_t>(pick(dice, 0, 2000))});
        }
        const Chart chart = topics_chart("topics", topics);
        check_room(chart);
        check_table(chart, topics.size());
    }
}

TEST_CASE("a topic's dot and interval lie at their shares") {
    const Chart chart = topics_chart("topics", {{"vectors", 0.5, 0.25, 1, 4}});
    const std::string dot = lines_with(chart.svg, "<circle class=\"share\"").back();
    const std::vector<std::string> interval = lines_with(chart.svg, "<line class=\"interval\"");
    const std::string& line = interval[interval.size() - 3];
    const double start = number(lines_with(chart.svg, "<line x1").front(), "x1");
    const double unit = (number(dot, "cx") - start) / 0.5;
    CHECK(is_near(number(line, "x1"), start + 0.25 * unit));
    CHECK(is_near(number(line, "x2"), start + unit));
    CHECK(chart.table.rows[0] == std::vector<std::string>{"vectors", "50%",
                                                          "25\xE2\x80\x93"
                                                          "100%",
                                                          "4"});
    CHECK(chart.alternative == "1 topic. First vectors, 50% (80% range 25% to 100%).");
}

TEST_CASE("nothing in the figures of turns and of totals covers other text or leaves it") {
    std::mt19937 dice(6);
    for (int i = 0; i < 400; ++i) {
        std::vector<TurnCount> turns;
        for (int turn = 1; turn <= pick(dice, 0, 15); ++turn) {
            const int done = pick(dice, 0, dice() % 4 == 0 ? 30000 : 40);
            turns.push_back(
                {turn, static_cast<std::size_t>(done), static_cast<std::size_t>(pick(dice, 0, done))});
        }
        check_room(turns_chart("turns", turns));
        TotalsSpread spread{{}, Marks(1 + pick(dice, 0, dice() % 3 == 0 ? 12 : 2000)), random_bands(dice)};
        for (int count = pick(dice, 0, 200); count > 0; --count)
            spread.totals.push_back(Marks(pick(dice, 0, spread.max.count())));
        check_room(spread_chart("spread", spread));
    }
}

TEST_CASE("every total is in one bin, and the bins go from nothing to the maximum") {
    std::mt19937 dice(7);
    for (int max = 1; max <= 400; ++max) {
        TotalsSpread spread{{}, Marks(max), {}};
        for (int total = 0; total <= max; ++total)
            spread.totals.push_back(Marks(total));
        std::shuffle(spread.totals.begin(), spread.totals.end(), dice);
        int next = 0;
        for (const std::vector<std::string>& row : spread_chart("spread", spread).table.rows) {
            const std::size_t to = row[0].find(" to ");
            REQUIRE(std::stoi(row[0]) == next);
            const int last = to == std::string::npos ? next : std::stoi(row[0].substr(to + 4));
            REQUIRE(std::stoi(row[1]) == last - next + 1);
            next = last + 1;
        }
        REQUIRE(next == max + 1);
    }
}

TEST_CASE("a class's totals are put into words") {
    const TotalsSpread spread{{Marks(12), Marks(47), Marks(41), Marks(100)}, Marks(100), {{"E", 0.3, 0.35}}};
    CHECK(spread_chart("spread", spread).alternative ==
          "4 candidates, from 12 to 100 marks out of 100; the fullest bar, 40 to 49, holds 2. Boundaries: "
          "E 30% to 35%.");
}

TEST_CASE("there is a figure where there is nothing to draw") {
    CHECK(ink_chart("a", {}, {}).alternative == "No sittings.");
    CHECK(topics_chart("a", {}).alternative == "No topics.");
    CHECK(turns_chart("a", {}).alternative == "No retries done.");
    CHECK(spread_chart("a", {{}, Marks(10), {}}).alternative == "No candidates.");
    CHECK(pace_chart("a", {{}, Seconds(60), Marks(0)}).alternative ==
          "0 of 0 marks done after 0:00 of work; the allowance was 1:00. The ink didn't change.");
}

TEST_CASE("foreign text is escaped in a figure and in its table") {
    const std::string hostile = "</svg><script>";
    const Chart chart = ink_chart("inks", {bar(hostile, 4, 1, 1, 1)}, {{hostile, 0.4, 0.5}});
    CHECK_FALSE(holds(to_html(chart), "<script"));
    CHECK(holds(to_html(chart), "&lt;/svg&gt;&lt;script&gt;, 25 Nov 2026</th>"));
    CHECK_FALSE(holds(to_html(topics_chart("topics", {{hostile, 0.5, 0.4, 0.6, 1}})), "<script"));
}

TEST_CASE("a figure's page element holds the title, the drawing and the table in this order") {
    const Chart chart = turns_chart("turns", {{1, 3, 2}});
    CHECK(to_html(chart) ==
          "<figure>\n<figcaption>Retries by turn</figcaption>\n" + chart.svg +
              "<details>\n<summary>In numbers</summary>\n<table>\n<caption>Retries done and got, by "
              "turn</caption>\n<thead><tr><th scope=\"col\">turn</th><th scope=\"col\" "
              "class=\"count\">done</th>"
              "<th scope=\"col\" class=\"count\">got</th></tr></thead>\n<tbody>\n<tr><th scope=\"row\">1</th>"
              "<td class=\"count\">3</td><td class=\"count\">2</td></tr>\n</tbody>\n</table>\n</details>\n"
              "</figure>\n");
}

TEST_CASE("the figure of one turn, line by line") {
    CHECK(
        turns_chart("turns", {{1, 3, 2}}).svg ==
        R"(<svg id="turns" class="chart" role="img" aria-labelledby="turns-title" aria-describedby="turns-text" viewBox="0 0 328 98">
<title id="turns-title">Retries by turn</title>
<desc id="turns-text">turn 1: 2 got of 3 done.</desc>
<rect class="outline" x="1" y="3" width="18" height="11"/>
<text x="25" y="12.5">done</text>
<rect class="solid" x="71.68" y="3" width="18" height="11"/>
<text x="95.68" y="12.5">got</text>
<line x1="47.96" y1="25" x2="47.96" y2="65"/>
<text x="47.96" y="79" text-anchor="middle">0</text>
<line class="grid" x1="136" y1="25" x2="136" y2="65"/>
<text x="136" y="79" text-anchor="middle">1</text>
<line class="grid" x1="224.04" y1="25" x2="224.04" y2="65"/>
<text x="224.04" y="79" text-anchor="middle">2</text>
<line class="grid" x1="312.08" y1="25" x2="312.08" y2="65"/>
<text x="312.08" y="79" text-anchor="middle">3</text>
<text x="180.02" y="94" text-anchor="middle">retries</text>
<text x="0" y="49">turn 1</text>
<rect class="outline" x="47.96" y="31" width="264.12" height="13"/>
<text class="on-pattern" x="317.08" y="41.5">3</text>
<rect class="solid" x="47.96" y="46" width="176.08" height="13"/>
<text class="on-pattern" x="229.04" y="56.5">2</text>
</svg>
)");
}
