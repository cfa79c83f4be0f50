#include "inkturn/retry/retry.hpp"

#include "catch.hpp"

#include <string>

namespace {

using namespace inkturn;

constexpr Day attempt{date::year{2026} / date::November / 2};

} // namespace

TEST_CASE(
    "Cepeda, Vul, Rohrer, Wixted & Pashler 2008, Psychological Science 19(11), abstract: the best gap is "
    "20-40% of the delay after it, so no retry before an exam comes after less than 20%",
    "[reference]") {
    for (int until_exam = 6; until_exam <= 21; ++until_exam) {
        CAPTURE(until_exam);
        const auto window = retry_window(attempt, attempt + Days{until_exam});
        REQUIRE(window);
        CHECK(window->squeezed);
        const auto gap = (window->opens - attempt).count();
        const auto delay = until_exam - gap;
        CHECK(5 * gap >= delay);          // 20%
        if (until_exam <= 11)             // from there on the eight days before the exam open later
            CHECK(10 * gap <= 4 * delay); // 40%
    }
}

TEST_CASE("the same abstract, a one-week delay: a gap of two days is 20-40% of what is left", "[reference]") {
    // Nine days to the exam: a gap of 2, then 7 days, 2/7 = 29%.
    const auto window = retry_window(attempt, attempt + Days{9});
    REQUIRE(window);
    CHECK((window->opens - attempt).count() == 2);
}

TEST_CASE("common practice, no source: a missed question is tried again after two to three weeks",
          "[reference]") {
    const auto window = retry_window(attempt, {});
    REQUIRE(window);
    CHECK((window->opens - attempt).count() == 14);
    CHECK((window->closes - attempt).count() == 21);
    CHECK_FALSE(window->squeezed);
}
