#include "inkturn/plan/arrange.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/retry/retry.hpp"

#include <algorithm>
#include <map>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using inkturn::test::pick;

constexpr Day first{date::year{2026} / date::November / 2};

Day day(int distance) {
    return first + Days{distance};
}

Capacity hours(std::vector<int> minutes) {
    Capacity capacity{first, {}};
    for (const int each : minutes)
        capacity.available.push_back(std::chrono::minutes{each});
    return capacity;
}

Capacity even(int days, int minutes) {
    return hours(std::vector<int>(static_cast<std::size_t>(days), minutes));
}

Block block(int opens, int closes, int minutes) {
    return {{{day(opens), day(closes)}}, std::chrono::minutes{minutes}, {}, {}, {}};
}

Load load(int opens, int closes, int minutes, std::optional<Day> placed = {}) {
    return {day(opens), day(closes), std::chrono::minutes{minutes}, placed};
}

} // namespace

TEST_CASE("a block goes to a day that has room for all of it") {
    Capacity capacity = hours({60, 60, 120, 60, 90});
    CHECK(arrange(capacity, {}, {block(0, 4, 100)}).blocks.front() == day(2));
    const Arrangement none = arrange(capacity, {}, {block(0, 4, 121)});
    CHECK_FALSE(none.blocks.front().has_value());
    CHECK(none.over == Seconds(0));
}

TEST_CASE("no two blocks share a day, however much it has") {
    const Arrangement both = arrange(hours({500, 0, 0}), {}, {block(0, 2, 60), block(0, 2, 90)});
    CHECK_FALSE(both.blocks[0].has_value()); // of two the longer one is left out last
    CHECK(both.blocks[1] == day(0));
}

TEST_CASE("spans come in the order in which they are preferred") {
    Block flexible = block(2, 2, 60);
    flexible.spans.push_back({day(0), day(4)});
    CHECK(arrange(even(5, 60), {}, {flexible}).blocks.front() == day(2));
    CHECK(arrange(hours({60, 30, 30, 30, 30}), {}, {flexible}).blocks.front() == day(0));
}

TEST_CASE("loads give way to a block, placed ones too where their day would be too full") {
    const Arrangement moved =
        arrange(hours({60, 60, 120}), {load(0, 2, 30, day(2)), load(0, 2, 20)}, {block(0, 2, 100)});
    CHECK(moved.blocks.front() == day(2));
    CHECK(moved.loads[0] != day(2));
    CHECK(moved.over == Seconds(0));
    CHECK(arrange(hours({60, 60, 120}), {load(0, 2, 20, day(2))}, {block(0, 2, 100)}).loads[0] == day(2));
}

TEST_CASE("a block that would make a day too full is left out") {
    const Arrangement full = arrange(hours({30, 120}), {load(1, 1, 60)}, {block(0, 1, 90)});
    CHECK_FALSE(full.blocks.front().has_value());
    CHECK(full.over == Seconds(0));
    CHECK(shortfall(hours({30, 120}), {load(1, 1, 60)}, {block(0, 1, 90)}) == std::chrono::minutes{90});
}

TEST_CASE("foreseen retries take room in the window of the day on which their block falls") {
    Block with_retries = block(0, 0, 60);
    with_retries.expected_retries = {Seconds(600), Seconds(600)};
    const Arrangement kept = arrange(even(30, 60), {}, {with_retries});
    REQUIRE(kept.expected_retries.size() == 2);
    for (const Arrangement::ExpectedRetry& expected : kept.expected_retries) {
        CHECK(expected.day >= day(14));
        CHECK(expected.day <= day(21));
    }
    CHECK(kept.expected_retries[0].day != kept.expected_retries[1].day);

    with_retries.exam = day(7);
    for (const Arrangement::ExpectedRetry& expected :
         arrange(even(30, 60), {}, {with_retries}).expected_retries) {
        CHECK(expected.day >= day(2)); // squeezed: a sixth of seven days, rounded up
        CHECK(expected.day <= day(6));
    }
    with_retries.exam = day(1);
    with_retries.fixed_day = day(0);
    CHECK(arrange(even(30, 60), {}, {with_retries}).expected_without_day == Seconds(1200));
}

TEST_CASE("whatever is arranged, windows, room and single days are kept, and the same comes out again") {
    std::mt19937 dice(606);
    int left_out = 0;
    for (int round = 0; round < 200; ++round) {
        CAPTURE(round);
        std::vector<int> minutes;
        const int days = pick(dice, 20, 60);
        for (int i = 0; i < days; ++i)
            minutes.push_back(pick(dice, 0, 3) == 0 ? 0 : 15 * pick(dice, 1, 10));
        const Capacity capacity = hours(minutes);
        std::vector<Load> loads;
        for (int i = pick(dice, 0, 25); i > 0; --i) {
            const int opens = pick(dice, 0, days - 1);
            loads.push_back(load(opens, std::min(days - 1, opens + pick(dice, 0, 8)), pick(dice, 1, 30)));
            if (pick(dice, 0, 3) == 0)
                loads.back().fixed_day = loads.back().opens;
        }
        std::vector<Block> blocks;
        for (int i = pick(dice, 1, 8); i > 0; --i) {
            const int opens = pick(dice, 0, days - 1);
            blocks.push_back(
                block(opens, std::min(days - 1, opens + pick(dice, 0, 10)), pick(dice, 20, 160)));
            blocks.back().spans.push_back({day(0), day(days - 1)});
            for (int piece = pick(dice, 0, 4); piece > 0; --piece)
                blocks.back().expected_retries.push_back(std::chrono::minutes{pick(dice, 1, 20)});
        }
        const Arrangement arranged = arrange(capacity, loads, blocks);

        std::map<Day, Seconds> planned;
        for (std::size_t i = 0; i < loads.size(); ++i) {
            CHECK(loads[i].opens <= arranged.loads[i]);
            CHECK(arranged.loads[i] <= loads[i].closes);
            planned[arranged.loads[i]] += loads[i].work;
        }
        Seconds without{0};
        std::map<Day, int> on_day;
        for (std::size_t i = 0; i < blocks.size(); ++i) {
            if (!arranged.blocks[i]) {
                without += blocks[i].work;
                for (const Seconds piece : blocks[i].expected_retries)
                    without += piece;
                continue;
            }
            const Day taken = *arranged.blocks[i];
            CHECK(++on_day[taken] == 1);
            CHECK(capacity.available[static_cast<std::size_t>((taken - first).count())] >= blocks[i].work);
            planned[taken] += blocks[i].work;
        }
        for (const Arrangement::ExpectedRetry& expected : arranged.expected_retries)
            planned[expected.day] += expected.work;
        Seconds over = arranged.expected_without_day;
        for (const auto& [each, time] : planned)
            over += std::max(Seconds(0),
                             time - capacity.available[static_cast<std::size_t>((each - first).count())]);
        CHECK(over == arranged.over);
        CHECK(arrange(capacity, loads, blocks).evenness == arranged.evenness);
        CHECK(arranged.over + without <= shortfall(capacity, loads, blocks));
        left_out += without > Seconds(0) ? 1 : 0;
    }
    CHECK(left_out > 20);
}

TEST_CASE("half a year of a thousand loads and twenty papers is within 2% of the bound on evenness") {
    std::mt19937 dice(66);
    std::vector<int> minutes;
    for (int i = 0; i < 200; ++i)
        minutes.push_back(std::vector<int>{120, 120, 90, 120, 60, 240, 0}[static_cast<std::size_t>(i % 7)]);
    const Capacity capacity = hours(minutes);
    std::vector<Load> loads;
    for (int i = 0; i < 1000; ++i) {
        const int opens = pick(dice, 0, 190);
        loads.push_back(load(opens, std::min(199, opens + 7), pick(dice, 2, 12)));
    }
    std::vector<Block> blocks;
    std::vector<Load> split = loads; // no plan can be below what these allow if they may be split
    for (int i = 0; i < 20; ++i) {
        blocks.push_back(block(8 * i, 8 * i + 7, 135));
        blocks.back().expected_retries.assign(4, std::chrono::minutes{7});
        split.push_back(load(8 * i, 8 * i + 7, 135));
        split.push_back(load(8 * i + 14, 8 * i + 28, 28));
    }
    const Arrangement arranged = arrange(capacity, loads, blocks);
    CHECK(arranged.over == Seconds(0));
    CHECK(std::count(arranged.blocks.begin(), arranged.blocks.end(), std::nullopt) == 0);
    const double bound = spread_bound(capacity, split).evenness;
    CHECK(arranged.evenness >= bound);
    CHECK(arranged.evenness <= 1.02 * bound);
}
