#include "view/text/trend.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "dice.hpp"
#include "view/text/lines.hpp"

#include <algorithm>
#include <memory>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

TrendSitting sitting(int id, int in_time, int overtime, int corrected, int time_sat = 1, int max = 100) {
    const auto paper =
        std::make_shared<const Paper>(PaperHead{"pure-" + std::to_string(id), "", "", {}, RetryBy::question},
                                      std::vector<Part>{{"1", Marks(max), "", ""}});
    return {SittingId{id},
            paper,
            monday + Days{id},
            time_sat,
            {Marks(max), Marks(in_time), Marks(overtime), Marks(corrected)},
            Marks(in_time),
            Seconds(72 * max),
            std::nullopt};
}

std::vector<TrendSitting> example() {
    return {sitting(1, 40, 20, 20), sitting(2, 55, 10, 30), sitting(3, 55, 0, 30), sitting(9, 70, 15, 15, 2),
            sitting(12, 88, 6, 0)};
}

std::vector<TrendSitting> many(int count) {
    std::vector<TrendSitting> sittings;
    for (int id = 1; id <= count; ++id)
        sittings.push_back(sitting(id, 30 + id, 20, 10));
    return sittings;
}

/// How many rows of the only bar show this ink.
int rows_of(char ink, const TrendSitting& of) {
    int rows = 0;
    for (const std::string& line : lines_of(trend_figure({of})))
        rows += line.size() > 7 && (line[5] == '|' || line[5] == '+') && line[7] == ink ? 1 : 0;
    return rows;
}

} // namespace

TEST_CASE("one bar per sitting shows the three inks stacked, and a paper sat again") {
    CHECK(trend_figure(example()) == R"(marks
100% +    cc    cc
     |    cc cc oo oo
 80% + cc cc cc oo ii
     | cc oo cc ii ii
 60% + oo ii ii ii ii
     | oo ii ii ii ii
 40% + ii ii ii ii ii
     | ii ii ii ii ii
 20% + ii ii ii ii ii
     | ii ii ii ii ii
  0% +---------------
        1  2  3  9 12
                 *
i in time   o overtime   c corrected   below: the sitting's number
* a paper sat again
)");
}

TEST_CASE("a figure of 40 columns shows the last sittings that fit, and says so") {
    CHECK(trend_figure(many(30), 40) == R"(marks, the last 11 of 30 sittings
100% +
     |                cc cc cc cc cc cc
 80% + cc cc cc cc cc oo oo oo oo oo oo
     | oo oo oo oo oo oo oo oo oo oo oo
 60% + oo oo oo oo oo ii ii ii ii ii ii
     | ii ii ii ii ii ii ii ii ii ii ii
 40% + ii ii ii ii ii ii ii ii ii ii ii
     | ii ii ii ii ii ii ii ii ii ii ii
 20% + ii ii ii ii ii ii ii ii ii ii ii
     | ii ii ii ii ii ii ii ii ii ii ii
  0% +---------------------------------
       20 21 22 23 24 25 26 27 28 29 30
i in time   o overtime   c corrected
)");
}

TEST_CASE("a figure of 80 columns shows the last sittings that fit, and says so") {
    CHECK(trend_figure(many(30)) == R"(marks, the last 24 of 30 sittings
100% +
     |                                                       cc cc cc cc cc cc
 80% +                         cc cc cc cc cc cc cc cc cc cc oo oo oo oo oo oo
     | cc cc cc cc cc cc cc cc oo oo oo oo oo oo oo oo oo oo oo oo oo oo oo oo
 60% + oo oo oo oo oo oo oo oo oo oo oo oo oo oo oo oo oo oo ii ii ii ii ii ii
     | oo oo oo oo oo oo oo oo ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii
 40% + ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii
     | ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii
 20% + ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii
     | ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii ii
  0% +------------------------------------------------------------------------
        7  8  9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25 26 27 28 29 30
i in time   o overtime   c corrected   below: the sitting's number
)");
}

TEST_CASE("a figure without a sitting is empty") {
    CHECK(trend_figure({}).empty());
}

TEST_CASE("an ink with marks has a row at least, taken from the ink below it where that has more") {
    CHECK(rows_of('i', sitting(1, 1, 98, 1)) == 1);
    CHECK(rows_of('o', sitting(1, 1, 98, 1)) == 8);
    CHECK(rows_of('c', sitting(1, 1, 98, 1)) == 1);
    CHECK(rows_of('i', sitting(1, 98, 1, 1)) == 8);
    CHECK(rows_of('o', sitting(1, 98, 1, 1)) == 1);
    CHECK(rows_of('c', sitting(1, 98, 1, 1)) == 1);
    CHECK(rows_of('o', sitting(1, 0, 1, 0)) == 1);
    CHECK(rows_of('c', sitting(1, 52, 2, 2)) == 1);
    CHECK(rows_of('i', sitting(1, 0, 0, 0)) == 0);
}

TEST_CASE("a row is ten percent, to the nearest") {
    CHECK(rows_of('i', sitting(1, 4, 0, 0)) == 1);
    CHECK(rows_of('i', sitting(1, 5, 0, 0)) == 1);
    CHECK(rows_of('i', sitting(1, 94, 0, 6)) == 9);
    CHECK(rows_of('c', sitting(1, 94, 0, 6)) == 1);
    CHECK(rows_of('i', sitting(1, 100, 0, 0)) == 10);
    CHECK(rows_of('o', sitting(1, 50, 4, 0)) == 1);
    CHECK(rows_of('o', sitting(1, 54, 1, 0)) == 1);
    CHECK(rows_of('i', sitting(1, 1, 0, 0, 1, 3)) == 3);
}

TEST_CASE("all that fit are shown without a note: 24 of two digits in 80 columns, 11 in 40") {
    CHECK(lines_of(trend_figure(many(24)))[0] == "marks");
    CHECK(lines_of(trend_figure(many(25)))[0] == "marks, the last 24 of 25 sittings");
    CHECK(lines_of(trend_figure(many(11), 40))[0] == "marks");
    CHECK(lines_of(trend_figure(many(12), 40))[0] == "marks, the last 11 of 12 sittings");
}

TEST_CASE("a star is explained if a sitting shown has one") {
    auto sittings = many(30);
    sittings[0].time_sat = 2;
    CHECK(trend_figure(sittings).find('*') == std::string::npos);
    sittings[29].time_sat = 2;
    CHECK(trend_figure(sittings).find("* a paper sat again\n") != std::string::npos);
}

TEST_CASE("a figure keeps to its width, sixteen lines and ASCII, and its bars to their rows") {
    std::mt19937 dice(12);
    for (int round = 0; round < 1000; ++round) {
        std::vector<TrendSitting> sittings;
        int id = pick(dice, 0, 4) == 0 ? 123'450 : 0;
        for (int i = pick(dice, 1, 40); i > 0; --i) {
            const int max = pick(dice, 1, 150);
            const int in_time = pick(dice, 0, max);
            const int overtime = pick(dice, 0, max - in_time);
            sittings.push_back(sitting(id += pick(dice, 1, 30), in_time, overtime,
                                       pick(dice, 0, max - in_time - overtime), pick(dice, 1, 2), max));
        }
        const auto width = static_cast<std::size_t>(pick(dice, 40, 80));
        const std::string figure = trend_figure(sittings, width);
        CAPTURE(round, width, figure);
        const std::vector<std::string> lines = lines_of(figure);
        REQUIRE(lines.size() >= 14);
        REQUIRE(lines.size() <= 16);
        for (const std::string& line : lines) {
            REQUIRE(line.size() <= width);
            REQUIRE(std::all_of(line.begin(), line.end(), [](char c) { return c >= ' ' && c <= '~'; }));
            REQUIRE((!line.empty() && line.back() != ' '));
        }
        const std::string& labels = lines[12];
        const std::string last = std::to_string(static_cast<int>(sittings.back().id));
        REQUIRE(labels.substr(labels.size() - last.size()) == last);
    }
}

TEST_CASE("each sitting has a row, with shares in percent of its marks") {
    CHECK(text_of(trend_table(example())) ==
          R"(sitting  paper    date          of  in time  unaided  corrected  reach  sat
      1  pure-1   3 Nov 2026   100      40%      60%        20%    40%
      2  pure-2   4 Nov 2026   100      55%      65%        30%    55%
      3  pure-3   5 Nov 2026   100      55%      55%        30%    55%
      9  pure-9   11 Nov 2026  100      70%      85%        15%    70%  again
     12  pure-12  14 Nov 2026  100      88%      94%         0%    88%
)");
}

TEST_CASE("without a paper sat again there is no column for it") {
    CHECK(text_of(trend_table({sitting(1, 40, 20, 20)})) ==
          R"(sitting  paper   date         of  in time  unaided  corrected  reach
      1  pure-1  3 Nov 2026  100      40%      60%        20%    40%
)");
}

TEST_CASE("a table of sittings keeps to 80 columns") {
    auto sittings = example();
    const PaperHead head{std::string(60, 'x'), "", "", {}, RetryBy::question};
    sittings[3].paper = std::make_shared<const Paper>(head, std::vector<Part>{{"1", Marks(100), "", ""}});
    sittings[3].worked = TrendSitting::WorkingTime{Seconds(36000), Seconds(36000)};
    for (const std::string& line : lines_of(text_of(trend_table(sittings))))
        CHECK(line.size() <= 80);
    for (const std::string& line : lines_of(text_of(trend_pace_table(sittings).value())))
        CHECK(line.size() <= 80);
}

TEST_CASE("the time per mark is beside the time allowed, for sittings with a clock") {
    auto sittings = example();
    CHECK_FALSE(trend_pace_table(sittings));
    sittings[0].worked = TrendSitting::WorkingTime{Seconds(7200), Seconds(750)};
    sittings[3].worked = TrendSitting::WorkingTime{Seconds(3605), Seconds(0)};
    sittings[4].worked = TrendSitting::WorkingTime{Seconds(0), Seconds(0)};
    sittings[4].reach = Marks(0);
    CHECK(text_of(trend_pace_table(sittings).value()) ==
          R"(sitting  paper    in time  overtime  per mark  allowed
      1  pure-1   2:00:00     12:30      3:00     1:12
      9  pure-9   1:00:05                0:52     1:12
     12  pure-12     0:00                   -     1:12
)");
}

TEST_CASE("retries have one row per turn") {
    CHECK(text_of(turns_table({{1, 12, 7}, {2, 5, 4}, {3, 1, 0}})) == R"(turn  done  got
   1    12    7  58%
   2     5    4  80%
   3     1    0   0%
)");
}

TEST_CASE("time off has a column if some sitting had it") {
    auto sittings = example();
    sittings[0].worked = TrendSitting::WorkingTime{Seconds(3600), Seconds(0), Seconds(300)};
    sittings[1].worked = TrendSitting::WorkingTime{Seconds(3600), Seconds(60)};
    CHECK(text_of(trend_pace_table(sittings).value()) ==
          R"(sitting  paper   in time  overtime  time off  per mark  allowed
      1  pure-1  1:00:00                5:00      1:30     1:12
      2  pure-2  1:00:00      1:00                1:05     1:12
)");
}

TEST_CASE("says how many secured questions were met again, and how sure the share got is") {
    CHECK(secured_again_line({}).empty());
    CHECK(secured_again_line({5, 4}) ==
          "Secured questions that were met again, asked for once more or in a paper sat\n"
          "  again: 5. Got again: 4, 80% (interval 37-98%).\n");
    CHECK(secured_again_line({1, 0}).find("Got again: 0, 0% (interval 0-") != std::string::npos);
}
