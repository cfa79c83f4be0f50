#include "inkturn/retry/turn_count.hpp"

#include "catch.hpp"

#include <vector>

namespace {

using namespace inkturn;

} // namespace

TEST_CASE("without a re-attempt two of five come back, to the nearest second, a half up") {
    CHECK(coming_back(Seconds(1000), {}, 1) == Seconds(400));
    CHECK(coming_back(Seconds(1001), {}, 1) == Seconds(400)); // 400.4
    CHECK(coming_back(Seconds(1004), {}, 2) == Seconds(402)); // 401.6
    CHECK(coming_back(Seconds(0), {}, 1) == Seconds(0));
}

TEST_CASE("what comes back goes by the re-attempts at the same turn, and by three of five got beside them") {
    const std::vector<TurnCount> counts{{1, 10, 2}, {3, 1, 1}};
    CHECK(coming_back(Seconds(1500), counts, 1) == Seconds(1000)); // 10 of 15
    CHECK(coming_back(Seconds(1500), counts, 2) == Seconds(600));
    CHECK(coming_back(Seconds(1500), counts, 3) == Seconds(500)); // 2 of 6
    CHECK(coming_back(Seconds(15), {{1, 25, 25}}, 1) == Seconds(1));
    CHECK(coming_back(Seconds(600), {{1, 5, 5}}, 1) == Seconds(120));
}
