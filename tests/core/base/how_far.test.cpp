#include "inkturn/base/how_far.hpp"

#include "catch.hpp"

#include <vector>

using namespace inkturn;

TEST_CASE("a part of the work takes the whole from one share to another") {
    std::vector<double> shares;
    const HowFar whole = [&](double share) { shares.push_back(share); };
    const HowFar half = part_of(whole, 0.5, 1);
    tell(half, 1, 4);
    tell(part_of(half, 0, 0.5), 4, 4);
    tell(half, 4, 4);
    CHECK(shares == std::vector<double>{0.625, 0.75, 1});
}

TEST_CASE("where nobody wants to be told, nobody is") {
    CHECK_FALSE(part_of({}, 0, 1));
    tell({}, 1, 4);
}
