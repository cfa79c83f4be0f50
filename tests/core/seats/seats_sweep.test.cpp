#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/seats/seats.hpp"

#include <cstddef>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using inkturn::test::pick;

std::size_t size(std::mt19937& dice, int least, int most) {
    return static_cast<std::size_t>(pick(dice, least, most));
}

/// A row a candidate; most topics cost most candidates nothing.
std::vector<std::vector<SeatWeight>> drawn_losses(std::mt19937& dice, std::size_t candidates,
                                                  std::size_t topics) {
    std::vector<std::vector<SeatWeight>> lost(candidates, std::vector<SeatWeight>(topics));
    for (auto& row : lost)
        for (SeatWeight& weight : row)
            if (pick(dice, 0, 2) == 0)
                weight = SeatWeight(pick(dice, 1, 12));
    return lost;
}

/// Sums over many instances.
struct Figures {
    int marks = 0;
    int bound = 0;
    int proven = 0;
    std::size_t seats = 0;
};

Figures figures(unsigned seed, int rounds, int candidates, int topics) {
    std::mt19937 dice(seed);
    Figures sum;
    for (int round = 0; round < rounds; ++round) {
        const SeatsRequest asked{size(dice, 2, 7), size(dice, 4, 16), size(dice, 1, 3), size(dice, 1, 3)};
        const SeatPlan plan = plan_seats(asked, drawn_losses(dice, size(dice, candidates / 3, candidates),
                                                             size(dice, topics / 2, topics)));
        sum.marks += plan.weight.count();
        sum.bound += plan.bound.count();
        sum.proven += plan.weight == plan.bound ? 1 : 0;
        for (const SeatPlan::SeatedLesson& one : plan.lessons)
            sum.seats += one.seats.size();
    }
    return sum;
}

} // namespace

// A better search changes these figures: more marks, a bound nearer to them, fewer seats.

TEST_CASE("small lessons win as much, and it is proven as often, as when these figures were taken") {
    const Figures sum = figures(41, 20, 60, 12);
    CHECK(sum.marks == 7962);
    CHECK(sum.bound == 7962);
    CHECK(sum.proven == 20);
    CHECK(sum.seats == 711);
}

TEST_CASE("lessons of a school's size win as much as when these figures were taken") {
    const Figures sum = figures(42, 6, 150, 40);
    CHECK(sum.marks == 3535);
    CHECK(sum.bound == 3535);
    CHECK(sum.proven == 6);
    CHECK(sum.seats == 192);
}
