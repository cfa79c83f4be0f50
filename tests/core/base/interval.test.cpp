#include "inkturn/base/interval.hpp"

#include "catch.hpp"
#include "dice.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using inkturn::test::pick;

double width(const Interval& interval) {
    return interval.high - interval.low;
}

std::vector<Marks> marks(const std::vector<int>& counts) {
    std::vector<Marks> all;
    for (const int count : counts)
        all.emplace_back(count);
    return all;
}

Score score(int earned, int max) {
    return {Marks(earned), Marks(max)};
}

std::vector<int> low_middle_high(const std::vector<Score>& past, int next) {
    const auto prediction = predict_next(past, Marks(next));
    REQUIRE(prediction);
    REQUIRE(prediction->range);
    return {prediction->range->low.count(), prediction->middle.count(), prediction->range->high.count()};
}

} // namespace

TEST_CASE("Jeffreys' interval lies within 0 to 1 and holds every share but nothing and everything") {
    for (int trials = 1; trials <= 60; ++trials)
        for (int successes = 0; successes <= trials; ++successes) {
            const Interval interval = jeffreys_interval(successes, trials);
            const double share = static_cast<double>(successes) / trials;
            const bool is_end = successes == 0 || successes == trials;
            const bool is_within = interval.low < share && share < interval.high;
            const bool is_ordered = 0 < interval.low && interval.low < interval.high && interval.high < 1;
            if (!is_ordered || is_within == is_end)
                FAIL(successes << " of " << trials << ": " << interval.low << " to " << interval.high);
        }
}

TEST_CASE("at nothing and at everything Jeffreys' interval ends short of the share") {
    CHECK(jeffreys_interval(0, 20).low > 0);
    CHECK(jeffreys_interval(20, 20).high < 1);
    CHECK_THAT(jeffreys_interval(0, 20).high, WithinAbs(1 - jeffreys_interval(20, 20).low, 1e-12));
}

TEST_CASE("with the same share and more evidence Jeffreys' interval narrows") {
    for (const double share : {.05, .3, .5, .77, .95})
        for (double trials = 2.5; trials < 5000; trials *= 1.7)
            CHECK(width(jeffreys_interval(share * trials * 1.7, trials * 1.7)) <
                  width(jeffreys_interval(share * trials, trials)));
}

TEST_CASE("more confidence takes a wider interval") {
    CHECK(width(jeffreys_interval(4.5, 9.25, .5)) < width(jeffreys_interval(4.5, 9.25, .9)));
    CHECK(width(jeffreys_interval(4.5, 9.25, .9)) < width(jeffreys_interval(4.5, 9.25)));
    CHECK(width(jeffreys_interval(4.5, 9.25)) == width(jeffreys_interval(4.5, 9.25, .95)));
}

TEST_CASE("Jeffreys' interval is worked out where evidence is next to nothing or without end") {
    CHECK(width(jeffreys_interval(0, 1e-9)) < 1);
    CHECK(width(jeffreys_interval(0, 1e-9)) > .99);
    CHECK_THAT(width(jeffreys_interval(5e11, 1e12)), WithinAbs(1.96e-6, 1e-8));
}

TEST_CASE("equal parts count in full, a part of most of the marks counts for nearly all") {
    CHECK(effective_parts(marks({7, 7, 7, 7})) == 4);
    CHECK(effective_parts(marks({5})) == 1);
    CHECK(effective_parts(marks({1, 2, 3})) == 36.0 / 14);
    CHECK(effective_parts(marks({500, 1})) < 1.01);
    CHECK(effective_parts({}) == 0);
}

TEST_CASE("no score gives no prediction, one or two only the middle") {
    CHECK_FALSE(predict_next({}, Marks(100)));
    CHECK(predict_next({score(61, 80)}, Marks(100))->middle == Marks(76)); // 76.25
    CHECK_FALSE(predict_next({score(61, 80)}, Marks(100))->range);
    CHECK_FALSE(predict_next({score(61, 80), score(70, 80)}, Marks(100))->range);
    CHECK(predict_next({score(61, 80), score(70, 80), score(65, 80)}, Marks(100))->range);
}

TEST_CASE("a prediction needs marks to predict, and scores within their maxima") {
    const std::vector<Score> one{score(61, 80)};
    CHECK_THROWS_AS(predict_next(one, Marks(0)), Error);
    CHECK_THROWS_AS(predict_next({score(81, 80)}, Marks(100)), Error);
    CHECK_THROWS_AS(predict_next({score(0, 0)}, Marks(100)), Error);
}

TEST_CASE("the middle is the share of all marks, a half rounded up") {
    CHECK(predict_next({score(1, 2)}, Marks(1))->middle == Marks(1));
    CHECK(predict_next({score(61, 80), score(29, 40)}, Marks(100))->middle == Marks(75));
    CHECK(predict_next({score(7, 20), score(8, 20)}, Marks(4))->middle == Marks(2)); // 1.5
    CHECK(predict_next({score(0, 20)}, Marks(100))->middle == Marks(0));
}

TEST_CASE("the range is that of the formula, its ends rounded outwards") {
    // Shares .6, .7, .8 of 100 marks: s = 1, so t · 100 · sqrt(1/100 + 1/300) with t = 2.91999.
    const double reach = 2.91999 * 100 * std::sqrt(1.0 / 100 + 1.0 / 300);
    REQUIRE_THAT(reach, WithinAbs(33.717, 1e-3));
    CHECK(low_middle_high({score(60, 100), score(70, 100), score(80, 100)}, 100) ==
          std::vector<int>{36, 70, 100});
    CHECK(low_middle_high({score(30, 100), score(40, 100), score(50, 100)}, 100) ==
          std::vector<int>{6, 40, 74});
    // Shares .5, .55, .6 of 50, 100 and 150: p = 170/300, s² = 5/24; 22.667 ± 8.974 of 40 marks.
    CHECK(low_middle_high({score(25, 50), score(55, 100), score(90, 150)}, 40) ==
          std::vector<int>{13, 23, 32});
}

TEST_CASE("scores of one share leave no range but for the rounding of its ends") {
    CHECK(low_middle_high({score(21, 30), score(35, 50), score(70, 100)}, 100) ==
          std::vector<int>{70, 70, 70});
    CHECK(low_middle_high({score(21, 30), score(35, 50), score(70, 100)}, 75) ==
          std::vector<int>{52, 53, 53}); // 52.5
    CHECK(low_middle_high({score(9, 9), score(30, 30), score(4, 4)}, 7) == std::vector<int>{7, 7, 7});
}

TEST_CASE("a range stays within nothing and everything, and holds the middle") {
    std::mt19937 dice(5);
    for (int i = 0; i < 2000; ++i) {
        std::vector<Score> past;
        for (int n = pick(dice, 3, 8); n > 0; --n) {
            const int max = pick(dice, 1, 200);
            past.push_back(score(pick(dice, 0, max), max));
        }
        const int next = pick(dice, 1, 300);
        const std::vector<int> foreseen = low_middle_high(past, next);
        if (foreseen[0] < 0 || foreseen[0] > foreseen[1] || foreseen[1] > foreseen[2] || foreseen[2] > next)
            FAIL(foreseen[0] << ' ' << foreseen[1] << ' ' << foreseen[2] << " of " << next);
    }
}

TEST_CASE("the range holds the next score as often as it says, with papers of different lengths") {
    // So many marks that the rounding to whole ones makes no difference.
    constexpr int runs = 2000;
    constexpr double deviation_of_a_mark = 6;
    std::mt19937 dice(17);
    std::normal_distribution<double> normal;
    const auto sit = [&](int max) {
        const double share = std::clamp(.65 + deviation_of_a_mark * normal(dice) / std::sqrt(max), 0.0, 1.0);
        return score(static_cast<int>(std::lround(share * max)), max);
    };
    int held = 0;
    for (int run = 0; run < runs; ++run) {
        std::vector<Score> past;
        for (const int max : {4'000, 30'000, 10'000, 15'000})
            past.push_back(sit(max));
        const Score next = sit(run % 2 == 0 ? 8'000 : 25'000);
        const auto range = predict_next(past, next.max)->range;
        held += range->low <= next.earned && next.earned <= range->high ? 1 : 0;
    }
    CAPTURE(held);
    CHECK(held >= runs * 87 / 100);
    CHECK(held <= runs * 93 / 100);
}
