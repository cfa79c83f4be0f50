#include "view/figure/axis.hpp"

#include "catch.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

std::vector<std::string> labels(const std::vector<Tick>& ticks) {
    std::vector<std::string> all;
    for (const Tick& tick : ticks)
        all.push_back(tick.label);
    return all;
}

using Labels = std::vector<std::string>;

bool is_round(std::int64_t step) {
    while (step % 10 == 0)
        step /= 10;
    return step == 1 || step == 2 || step == 5;
}

std::int64_t intervals(std::int64_t length, std::int64_t step) {
    return (length + step - 1) / step;
}

} // namespace

TEST_CASE("a step is round, keeps to the number of intervals, and no smaller round one does") {
    for (std::int64_t length = 0; length <= 3000; ++length)
        for (std::int64_t max = 1; max <= 12; ++max) {
            const std::int64_t step = round_step(length, max);
            REQUIRE(is_round(step));
            REQUIRE(intervals(length, step) <= max);
            for (std::int64_t smaller = step - 1; smaller >= step / 3 && smaller > 0; --smaller)
                if (is_round(smaller))
                    REQUIRE(intervals(length, smaller) > max);
        }
}

TEST_CASE("a step of minutes is one of a clock's face, then of round hours") {
    CHECK(minutes_step(0, 5) == 1);
    CHECK(minutes_step(5, 5) == 1);
    CHECK(minutes_step(6, 5) == 2);
    CHECK(minutes_step(12, 5) == 5);
    CHECK(minutes_step(30, 5) == 10);
    CHECK(minutes_step(60, 5) == 15);
    CHECK(minutes_step(102, 6) == 15);
    CHECK(minutes_step(105, 6) == 30);
    CHECK(minutes_step(180, 5) == 60);
    CHECK(minutes_step(600, 5) == 120);
    CHECK(minutes_step(3000, 5) == 600);
}

TEST_CASE("ticks of counts go from nothing to a round number that holds all") {
    CHECK(labels(count_ticks(75, 6)) == Labels{"0", "20", "40", "60", "80"});
    CHECK(labels(count_ticks(80, 6)) == Labels{"0", "20", "40", "60", "80"});
    CHECK(labels(count_ticks(81, 6)) == Labels{"0", "20", "40", "60", "80", "100"});
    CHECK(labels(count_ticks(3, 6)) == Labels{"0", "1", "2", "3"});
    CHECK(labels(count_ticks(7, 1)) == Labels{"0", "10"});
    CHECK(count_ticks(75, 6).back().value == 80);
}

TEST_CASE("there is an axis of counts where nothing was counted") {
    CHECK(labels(count_ticks(0, 6)) == Labels{"0", "1"});
}

TEST_CASE("ticks of percent end at 100") {
    CHECK(labels(percent_ticks(5)) == Labels{"0%", "20%", "40%", "60%", "80%", "100%"});
    CHECK(labels(percent_ticks(4)) == Labels{"0%", "50%", "100%"});
    CHECK(labels(percent_ticks(1)) == Labels{"0%", "100%"});
    CHECK(percent_ticks(5)[1].value == 0.2);
}

TEST_CASE("ticks of minutes are in seconds and don't go beyond the longest time") {
    const std::vector<Tick> ticks = minute_ticks(Seconds(6120), 6);
    CHECK(labels(ticks) == Labels{"0", "15", "30", "45", "60", "75", "90"});
    CHECK(ticks.back().value == 5400);
    CHECK(labels(minute_ticks(Seconds(59), 6)) == Labels{"0"});
}

TEST_CASE("a side has as many intervals as labels find room") {
    CHECK(max_intervals(280, 32) == 7);
    CHECK(max_intervals(279, 32) == 6);
    CHECK(max_intervals(10, 32) == 1);
}

TEST_CASE("a scale puts its ends where they belong and the rest in proportion") {
    const Scale upwards{0, 80, 200, 20};
    CHECK(upwards.at(0) == 200);
    CHECK(upwards.at(80) == 20);
    CHECK(upwards.at(20) == 155);
}

TEST_CASE("a share is said in whole percent, a half up") {
    CHECK(percent(0) == "0%");
    CHECK(percent(0.666) == "67%");
    CHECK(percent(0.125) == "13%");
    CHECK(percent(1) == "100%");
}
