#include "catch.hpp"
#include "core/plan/arrange.hpp"
#include "core/plan/spread.hpp"
#include "days.hpp"
#include "dice.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using inkturn::test::day;
using inkturn::test::monday;
using inkturn::test::pick;
using std::chrono::minutes;

/// Sums over many instances: what a change that searches less well makes larger.
struct Figures {
    Seconds over{0};
    long long unevenness = 0; ///< seconds, each instance's rounded
    long long day_sum = 0;
    Seconds left_out{0};
    int late = 0;
    int moved = 0;
};

Capacity drawn_capacity(std::mt19937& dice, int days, int max_minutes) {
    Capacity capacity{monday, {}};
    for (int i = 0; i < days; ++i)
        capacity.available.push_back(minutes{pick(dice, 0, 4) == 0 ? 0 : 5 * pick(dice, 2, max_minutes / 5)});
    return capacity;
}

std::vector<Load> drawn_loads(std::mt19937& dice, int count, int days, int max_minutes) {
    std::vector<Load> loads;
    for (int i = 0; i < count; ++i) {
        const int opens = pick(dice, 0, days - 1);
        const int closes = std::min(days - 1, opens + pick(dice, 0, 9));
        loads.push_back({day(opens), day(closes), minutes{pick(dice, 1, max_minutes)}, {}});
        if (pick(dice, 0, 9) == 0)
            loads.back().fixed_day = day(pick(dice, opens, closes));
    }
    return loads;
}

std::vector<Block> drawn_blocks(std::mt19937& dice, int count, int days) {
    std::vector<Block> blocks;
    for (int i = 0; i < count; ++i) {
        const int opens = pick(dice, 0, days - 1);
        Block block{
            {{day(opens), day(std::min(days - 1, opens + pick(dice, 0, 6)))}, {day(0), day(days - 1)}},
            minutes{pick(dice, 30, 120)},
            {},
            {},
            {}};
        for (int piece = pick(dice, 0, 3); piece > 0; --piece)
            block.expected_retries.push_back(minutes{pick(dice, 5, 20)});
        if (pick(dice, 0, 2) == 0)
            block.exam = day(days);
        if (pick(dice, 0, 2) == 0)
            block.in_time = day(pick(dice, 0, days - 1));
        if (pick(dice, 0, 3) == 0)
            block.kept_day = day(pick(dice, 0, days - 1));
        if (pick(dice, 0, 3) == 0)
            block.never_on.push_back(day(pick(dice, 0, days - 1)));
        blocks.push_back(block);
    }
    return blocks;
}

void add(Figures& sum, const PlacementCost& weight) {
    sum.over += weight.over;
    sum.unevenness += std::llround(weight.evenness);
    sum.day_sum += weight.day_sum;
}

void add(Figures& sum, const std::vector<Block>& blocks, const Arrangement& arranged) {
    add(sum, PlacementCost{arranged.over, arranged.evenness, arranged.day_sum});
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        const auto taken = arranged.blocks[i];
        sum.left_out += taken ? Seconds(0) : blocks[i].work;
        sum.late += taken && blocks[i].in_time && *taken > *blocks[i].in_time ? 1 : 0;
        sum.moved += taken && blocks[i].kept_day && taken != blocks[i].kept_day ? 1 : 0;
    }
}

} // namespace

// A better search changes these figures: the first that differs has to be smaller, in the order of the
// checks.

TEST_CASE("loads are spread as evenly, and as early, as when these figures were taken") {
    std::mt19937 dice(31);
    Figures sum;
    for (int round = 0; round < 150; ++round) {
        const int days = pick(dice, 5, 40);
        const Capacity capacity = drawn_capacity(dice, days, 60);
        const std::vector<Load> loads = drawn_loads(dice, pick(dice, 3, 60), days, 30);
        add(sum, placement_cost(capacity, loads, spread(capacity, loads)));
    }
    CHECK(sum.over.count() == 1'176'360);
    CHECK(sum.unevenness == 6'462'414);
    CHECK(sum.day_sum == 60'104);
}

TEST_CASE("papers and loads are arranged as well as when these figures were taken") {
    std::mt19937 dice(32);
    Figures sum;
    for (int round = 0; round < 60; ++round) {
        const int days = pick(dice, 10, 45);
        const Capacity capacity = drawn_capacity(dice, days, 150);
        const std::vector<Load> loads = drawn_loads(dice, pick(dice, 0, 25), days, 30);
        const std::vector<Block> blocks = drawn_blocks(dice, pick(dice, 1, 7), days);
        add(sum, blocks, arrange(capacity, loads, blocks));
    }
    CHECK(sum.over.count() == 77'880);
    CHECK(sum.left_out.count() == 99'540);
    CHECK(sum.late == 9);
    CHECK(sum.moved == 42);
    CHECK(sum.unevenness == 1'001'081);
    CHECK(sum.day_sum == 22'904);
}
