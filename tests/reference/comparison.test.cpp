#include "inkturn/statistics/comparison.hpp"

#include "catch.hpp"

#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::WithinAbs;

} // namespace

TEST_CASE("Student's sleep data (1908, Biometrika 6, 1-25); R 4.2.2, t.test(extra ~ group, data = sleep): "
          "Welch's interval, degrees of freedom and p",
          "[reference]") {
    const Difference found = welch(sample_of({0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0}),
                                   sample_of({1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}));
    CHECK_THAT(found.difference, WithinAbs(0.75 - 2.33, 1e-12));
    CHECK_THAT(found.degrees_of_freedom, WithinAbs(17.7764735161785, 1e-10));
    CHECK_THAT(found.p, WithinAbs(0.0793941401874, 1e-12));
    REQUIRE(found.interval);
    CHECK_THAT(found.interval->low, WithinAbs(-3.3654832307117, 1e-11));
    CHECK_THAT(found.interval->high, WithinAbs(0.2054832307117, 1e-11));
}

TEST_CASE("R 4.2.2, t.test of shares of marks, and at 90% of a side that doesn't vary", "[reference]") {
    const Difference shares = welch(sample_of({.5, 1, .75, .25, 1, 1, .5}), sample_of({0, .25, .25, .5, 0}));
    CHECK_THAT(shares.degrees_of_freedom, WithinAbs(9.99995765219245, 1e-10));
    CHECK_THAT(shares.p, WithinAbs(0.00599277915997, 1e-12));
    REQUIRE(shares.interval);
    CHECK_THAT(shares.interval->low, WithinAbs(0.18432327085388, 1e-12));
    CHECK_THAT(shares.interval->high, WithinAbs(0.84424815771754, 1e-12));

    const Difference even = welch(sample_of({12, 15, 9, 20, 17, 11}), sample_of({14, 14, 14, 14, 14}), 0.9);
    CHECK_THAT(even.degrees_of_freedom, WithinAbs(5, 1e-12));
    CHECK_THAT(even.p, WithinAbs(1, 1e-12));
    REQUIRE(even.interval);
    CHECK_THAT(even.interval->high, WithinAbs(3.371820851, 1e-9));
}

TEST_CASE("R 4.2.2, p.adjust(c(0.04, 0.001, 0.03, 0.005, 0.8, 0.012, 0.03), \"holm\")", "[reference]") {
    const std::vector<double> adjusted = holm_adjusted({0.04, 0.001, 0.03, 0.005, 0.8, 0.012, 0.03});
    const std::vector<double> expected{0.120, 0.007, 0.120, 0.030, 0.800, 0.060, 0.120};
    REQUIRE(adjusted.size() == expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i)
        CHECK_THAT(adjusted[i], WithinAbs(expected[i], 1e-15));
    CHECK(holm_adjusted({}).empty());
}
