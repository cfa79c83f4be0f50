#include "inkturn/base/interval.hpp"

#include "catch.hpp"

#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::WithinAbs;

double width(const Interval& interval) {
    return interval.high - interval.low;
}

std::vector<Marks> marks(const std::vector<int>& counts) {
    std::vector<Marks> all;
    for (const int count : counts)
        all.emplace_back(count);
    return all;
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
