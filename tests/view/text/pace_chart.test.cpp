#include "view/text/pace_chart.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "view/text/lines.hpp"

#include <algorithm>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

using Points = std::vector<ClockPoint>;

ClockPoint point(int seconds, int marks) {
    return {Seconds(seconds), Marks(marks)};
}

std::size_t count_of(char c, const std::vector<std::string>& lines) {
    std::size_t sum = 0;
    for (const std::string& line : lines)
        sum += static_cast<std::size_t>(std::count(line.begin(), line.end(), c));
    return sum;
}

/// The lines between the title and the minutes: the top row first, the axis last.
std::vector<std::string> plot_of(const std::string& figure) {
    const std::vector<std::string> lines = lines_of(figure);
    return {lines.begin() + 1, lines.end() - 2};
}

/// Parts of the given marks, each left after `percent` of its 72 s a mark.
Points steady(const std::vector<int>& marks, int percent) {
    Points points{point(0, 0)};
    int sum = 0;
    for (const int part : marks) {
        sum += part;
        points.push_back(point(sum * 72 * percent / 100, sum));
    }
    return points;
}

} // namespace

TEST_CASE("a slow sitting's parts lie below the marks expected, and beyond the change of ink") {
    CHECK(pace_chart_text(steady({10, 20, 30, 15}, 150), Seconds(5400), Marks(75), 60) == R"(marks
80 +                                 |
   |                               ..|                o
   |                            ...  |
60 +                         ...     |      o
   |                      ...        |
   |                   ...           |
40 +                ...              |
   |             ...   o             |
   |          ...                    |
20 +       ...                       |
   |    ..o                          |
   | ...                             |
 0 +----------+-----------+----------|----------+------
   0          30          60         90        120 min
o part done   . marks expected   | ink changed at 1:30:00
)");
}

TEST_CASE("a fast sitting's parts lie above the marks expected, and no ink changes") {
    CHECK(pace_chart_text(steady({4, 6}, 75), Seconds(720), Marks(10)) == R"(marks
10 +                                                    o              ....
   |                                                            .......
 8 +                                                     .......
   |                                              .......
 6 +                                       .......
   |                               ........
 4 +                    o   .......
   |                 .......
 2 +          .......
   |   .......
 0 +-----------+-----------+-----------+----------+-----------+-----------+
   0           2           4           6          8           10          12 min
o part done   . marks expected
)");
}

TEST_CASE("a sitting that has only begun shows the marks expected") {
    const std::string begun = pace_chart_text({point(0, 0)}, Seconds(5400), Marks(75));
    CHECK(begun == pace_chart_text({}, Seconds(5400), Marks(75)));
    CHECK(count_of('o', plot_of(begun)) == 0);
    CHECK(count_of('|', plot_of(begun)) == 8); // the axis of marks between its ticks
}

TEST_CASE("the line of the ink stands at the minute when it changed, from the axis to the top") {
    // 60 minutes of 120: the middle of the axis, which is 74 columns long behind 3 of labels and a blank.
    const Points points{point(0, 0), point(7200, 50)};
    for (const std::string& row : plot_of(pace_chart_text(points, Seconds(3600), Marks(100)))) {
        CAPTURE(row);
        REQUIRE(row.size() > 39);
        CHECK(row.at(39) == '|');
    }
}

TEST_CASE("the ink's line is drawn from the second at which the allowance is used up") {
    const auto line_is_drawn = [](int worked) {
        const Points points{point(0, 0), point(worked, 1)};
        const std::string figure = pace_chart_text(points, Seconds(720), Marks(10));
        return figure.find("ink changed at 12:00") != std::string::npos &&
               count_of('|', plot_of(figure)) > 10;
    };
    CHECK_FALSE(line_is_drawn(719));
    CHECK(line_is_drawn(720));
}

TEST_CASE("a point where no part was left is not drawn") {
    const std::string figure =
        pace_chart_text({point(0, 0), point(100, 3), point(500, 3)}, Seconds(720), Marks(10));
    CHECK(count_of('o', plot_of(figure)) == 1);
}

TEST_CASE("a part that was left at the end of the time is drawn at the end of both axes") {
    const auto plot = plot_of(pace_chart_text({point(0, 0), point(7200, 100)}, Seconds(3600), Marks(100)));
    CHECK(plot.front().size() == plot.back().size());
    CHECK(plot.front().back() == 'o');
}

TEST_CASE("a figure keeps to its width, sixteen lines and ASCII, with round ticks") {
    std::mt19937 dice(11);
    for (int round = 0; round < 3000; ++round) {
        Points points{point(0, 0)};
        const int longest = pick(dice, 0, 2) == 0 ? 100'000 : 200;
        for (int i = pick(dice, 0, 40); i > 0; --i)
            points.push_back(point(static_cast<int>(points.back().worked.count()) + pick(dice, 1, longest),
                                   points.back().marks.count() + pick(dice, 0, 12)));
        const Marks marks = points.back().marks + Marks(pick(dice, 1, 20));
        const Seconds allowance(pick(dice, 0, 72 * marks.count()));
        const auto width = static_cast<std::size_t>(pick(dice, 40, 80));
        const std::string figure = pace_chart_text(points, allowance, marks, width);
        CAPTURE(round, width, figure);
        const std::vector<std::string> lines = lines_of(figure);
        REQUIRE(lines.size() <= 16);
        REQUIRE(lines.size() >= 14);
        for (const std::string& line : lines) {
            REQUIRE(line.size() <= width);
            REQUIRE(std::all_of(line.begin(), line.end(), [](char c) { return c >= ' ' && c <= '~'; }));
            REQUIRE((line.empty() || line.back() != ' '));
        }
        REQUIRE(lines[lines.size() - 2].substr(lines[lines.size() - 2].size() - 4) == " min");
        REQUIRE(count_of('o', plot_of(figure)) < std::max<std::size_t>(2, points.size()));
    }
}

TEST_CASE("a part's time is set beside its allowance") {
    const std::vector<ClockPart> parts{{"1", Marks(4), Seconds(288)},
                                       {"2a", Marks(6), Seconds(432)},
                                       {"2b", Marks(50), Seconds(3600)},
                                       {"3", Marks(2), Seconds(144)}};
    const std::vector<PartTime> times{{Seconds(288), Seconds(0)},
                                      {Seconds(400), Seconds(0)},
                                      {Seconds(3600), Seconds(75)},
                                      {Seconds(0), Seconds(0)}};
    CHECK(text_of(part_times_table(Clock(parts), times)) ==
          R"(part  marks  allowance  in time  overtime  difference
1         4       4:48     4:48                  0:00
2a        6       7:12     6:40                 -0:32
2b       50    1:00:00  1:00:00      1:15       +1:15
3         2       2:24        -
all      62    1:14:24  1:11:28      1:15       -1:41
)");
}

TEST_CASE("a part done in overtime alone has no time in time") {
    const std::string text =
        text_of(part_times_table(Clock({{"1", Marks(1), Seconds(72)}}), {{Seconds(0), Seconds(30)}}));
    CHECK(text.find("1         1       1:12     0:00      0:30       -0:42\n") != std::string::npos);
}
