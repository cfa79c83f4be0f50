#include "inkturn/statistics/uncertain_share.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

using namespace inkturn;
using Catch::Matchers::WithinAbs;

TEST_CASE("a share far from both ends is a plain normal distribution") {
    const UncertainShare share({{1, 0.5, 0.05}});
    CHECK_THAT(share.mean(), WithinAbs(0.5, 1e-9));
    CHECK_THAT(share.below(0.45), WithinAbs(0.158655254, 1e-8)); // one deviation
    const Interval range = share.range(0.8);
    CHECK_THAT(range.low, WithinAbs(0.5 - 1.2815515655 * 0.05, 1e-8));
    CHECK_THAT(range.high, WithinAbs(0.5 + 1.2815515655 * 0.05, 1e-8));
}

TEST_CASE("a share stays within 0 and 1 however far off its distributions lie") {
    for (const double mean : {-5.0, -0.2, 0.0, 0.3, 1.0, 1.1, 9.0})
        for (const double deviation : {1e-6, 0.05, 0.5, 3.0}) {
            const UncertainShare share({{2, mean, deviation}, {1, 0.6, 0.1}});
            const Interval range = share.range(0.8);
            CHECK(range.low >= 0);
            CHECK(range.low <= range.high);
            CHECK(range.high <= 1);
            CHECK(share.mean() >= 0);
            CHECK(share.mean() <= 1);
            CHECK_THAT(share.below(1), WithinAbs(1, 1e-6));
            CHECK_THAT(share.below(share.quantile(0.3)), WithinAbs(0.3, 1e-4));
        }
}

TEST_CASE("the weights of distributions need not add up to 1") {
    const UncertainShare one({{1, 0.4, 0.1}, {3, 0.7, 0.05}});
    const UncertainShare other({{10, 0.4, 0.1}, {30, 0.7, 0.05}});
    CHECK(one.mean() == other.mean());
    CHECK(one.quantile(0.1) == other.quantile(0.1));
}

TEST_CASE("any of several shares is as likely as the others, whatever the weights of their distributions") {
    const UncertainShare low({{1, 0.3, 0.05}});
    const UncertainShare high({{5, 0.6, 0.02}, {5, 0.8, 0.02}});
    const UncertainShare either = mixture({low, high});
    CHECK_THAT(either.mean(), WithinAbs((0.3 + 0.7) / 2, 1e-9));
    for (const double share : {0.25, 0.35, 0.5, 0.61, 0.79})
        CHECK_THAT(either.below(share), WithinAbs((low.below(share) + high.below(share)) / 2, 1e-9));
    CHECK_THAT(mixture({low}).quantile(0.2), WithinAbs(low.quantile(0.2), 1e-9));
    CHECK_THROWS_AS(mixture({}), Error);
}

TEST_CASE("a share without a distribution is refused") {
    CHECK_THROWS_AS(UncertainShare({}), Error);
}
