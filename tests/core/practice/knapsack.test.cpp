#include "core/practice/knapsack.hpp"

#include "catch.hpp"
#include "dice.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using inkturn::test::pick;

using Chosen = std::vector<std::size_t>;

Offer never_sat(int seconds, int weakness = 1) {
    return {Seconds(seconds), true, weakness, 0};
}
Offer got(int seconds, int preference, int weakness = 1) {
    return {Seconds(seconds), false, weakness, preference};
}

/// Seconds, those never sat, by weakness, by days.
using Sums = std::array<std::int64_t, 4>;

Sums sums_of(const std::vector<Offer>& offers, const Chosen& chosen) {
    Sums sums{};
    for (const std::size_t i : chosen) {
        const std::int64_t time = offers[i].time.count();
        sums[0] += time;
        sums[1] += offers[i].never_sat ? time : 0;
        sums[2] += time * offers[i].weakness;
        sums[3] += time * offers[i].preference;
    }
    return sums;
}

/// By trying every choice; of equals the one that takes the first offer in which they differ.
Chosen best_of_all(const std::vector<Offer>& offers, Seconds time) {
    Chosen best;
    Sums most{};
    for (std::size_t choice = std::size_t{1} << offers.size(); choice-- > 0;) {
        Chosen chosen;
        for (std::size_t i = 0; i < offers.size(); ++i)
            if ((choice >> (offers.size() - 1 - i) & 1U) != 0) // the first offer is the highest bit
                chosen.push_back(i);
        const Sums sums = sums_of(offers, chosen);
        if (sums[0] <= time.count() && sums > most) {
            most = sums;
            best = chosen;
        }
    }
    return best;
}

Offer any_offer(std::mt19937& dice, int unit) {
    const int seconds = unit * pick(dice, 1, 12);
    const int weakness = pick(dice, 1, 3);
    return pick(dice, 0, 1) == 0 ? never_sat(seconds, weakness) : got(seconds, pick(dice, 21, 24), weakness);
}

} // namespace

TEST_CASE("the time is filled as closely as whole questions can before anything else counts") {
    const std::vector<Offer> offers{never_sat(500, 9), got(360, 900), got(300, 21)};
    CHECK(fullest(offers, Seconds(660)) == Chosen{1, 2});
    CHECK(fullest(offers, Seconds(659)) == Chosen{0});
    CHECK(fullest(offers, Seconds(10'000)) == Chosen{0, 1, 2});
}

TEST_CASE("of choices that fill the time alike the one with the most time never sat is taken") {
    CHECK(fullest({got(360, 900, 9), never_sat(360), got(360, 900, 9)}, Seconds(360)) == Chosen{1});
}

TEST_CASE("then the weaker topics, and then what was got longest ago") {
    CHECK(fullest({never_sat(360, 1), never_sat(360, 3), never_sat(360, 2)}, Seconds(720)) == Chosen{1, 2});
    CHECK(fullest({got(360, 900, 1), got(360, 21, 2)}, Seconds(360)) == Chosen{1});
    CHECK(fullest({got(360, 30), got(360, 90), got(360, 60)}, Seconds(720)) == Chosen{1, 2});
}

TEST_CASE("of equal choices the one is taken that has the first question in which they differ") {
    CHECK(fullest(std::vector<Offer>(5, never_sat(72)), Seconds(200)) == Chosen{0, 1});
    CHECK(fullest({never_sat(216), never_sat(144), never_sat(72)}, Seconds(216)) == Chosen{0});
    CHECK(fullest({never_sat(144), never_sat(216), never_sat(72)}, Seconds(216)) == Chosen{0, 2});
}

TEST_CASE("nothing is chosen where nothing is offered or nothing fits") {
    CHECK(fullest({}, Seconds(3600)).empty());
    CHECK(fullest({never_sat(72)}, Seconds(71)).empty());
    CHECK(fullest({never_sat(72)}, Seconds(0)).empty());
    CHECK(fullest({never_sat(72)}, Seconds(72)) == Chosen{0});
}

TEST_CASE("on 300 small instances the choice is the best of all choices") {
    std::mt19937 dice(4711);
    for (int i = 0; i < 300; ++i) {
        const int unit = std::array<int, 3>{72, 1, 5}[static_cast<std::size_t>(i % 3)];
        std::vector<Offer> offers;
        for (int count = pick(dice, 1, 9); count > 0; --count)
            offers.push_back(any_offer(dice, unit));
        const Seconds time(unit * pick(dice, 1, 40) + pick(dice, 0, unit - 1));
        CAPTURE(i, unit, time.count(), offers.size());
        CHECK(fullest(offers, time) == best_of_all(offers, time));
    }
}

TEST_CASE("a second never sat counts for more than a day of the weakest topic") {
    const std::vector<Offer> offers{got(86'400, 900, 1'000'000), got(86'399, 0, 0), never_sat(1, 0)};
    CHECK(fullest(offers, std::chrono::hours{24}) == Chosen{1, 2});
}

TEST_CASE("no sum overflows where a day is filled with what weighs most") {
    constexpr std::int64_t most = 1'000'000;
    std::vector<Offer> offers(3, {std::chrono::hours{8}, false, most, most});
    offers.push_back({std::chrono::hours{8}, false, most, most - 1});
    CHECK(fullest(offers, std::chrono::hours{24}) == Chosen{0, 1, 2});
    std::swap(offers[0], offers[3]);
    CHECK(fullest(offers, std::chrono::hours{24}) == Chosen{1, 2, 3});
}
