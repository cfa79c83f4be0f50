#include "inkturn/base/interval.hpp"

#include "catch.hpp"

namespace {

using namespace inkturn;
using Catch::Matchers::WithinAbs;

void check_jeffreys(int successes, int trials, double low, double high) {
    CAPTURE(successes, trials);
    const Interval interval = jeffreys_interval(successes, trials);
    CHECK_THAT(interval.low, WithinAbs(low, 5e-7));
    CHECK_THAT(interval.high, WithinAbs(high, 5e-7));
}

} // namespace

TEST_CASE(
    "statsmodels 0.13.5, computed: Jeffreys' 95% intervals; the first three cases are of Newcombe 1998, "
    "Statistics in Medicine 17, 857-872 (the cases from memory)",
    "[reference]") {
    check_jeffreys(81, 263, .254522, .365647);
    check_jeffreys(15, 148, .060449, .157643);
    check_jeffreys(0, 20, .000024, .116639);
    check_jeffreys(5, 10, .223529, .776471);
    check_jeffreys(10, 10, .782804, .999952);
}

TEST_CASE("tables of Student's t, from memory: 5% lie above 2.920 with 2 degrees of freedom, above 1.833 "
          "with 9",
          "[reference]") {
    CHECK_THAT(student_t_quantile(.95, 2), WithinAbs(2.920, 5e-4));
    CHECK_THAT(student_t_quantile(.95, 9), WithinAbs(1.833, 5e-4));
}
