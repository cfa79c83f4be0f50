#include "core/plan/spread_bound.hpp"

#include "catch.hpp"
#include "dice.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <map>
#include <numeric>
#include <optional>
#include <random>
#include <set>
#include <tuple>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using inkturn::test::pick;
using std::chrono::minutes;

constexpr Day first{date::year{2026} / date::September / 7};

int one_of(std::mt19937& dice, const std::vector<int>& values) {
    return values[static_cast<std::size_t>(pick(dice, 0, static_cast<int>(values.size()) - 1))];
}

Day day(int distance) {
    return first + Days{distance};
}

int distance_of(Day day) {
    return static_cast<int>((day - first).count());
}

std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

Load load(int opens, int closes, int work, std::optional<Day> placed = {}) {
    return {day(opens), day(closes), Seconds{work}, placed};
}

Capacity by_weekday(int days, const std::array<int, 7>& available_minutes) {
    Capacity capacity{first, {}};
    for (int i = 0; i < days; ++i)
        capacity.available.push_back(minutes{available_minutes[at(i % 7)]});
    return capacity;
}

Capacity even_days(int days, Seconds available) {
    return {first, std::vector<Seconds>(at(days), available)};
}

/// A window of at most the longest, cut where the days end.
Load load_anywhere(std::mt19937& dice, int days, int longest, int work) {
    const int opens = pick(dice, 0, days - 1);
    return load(opens, std::min(days - 1, opens + pick(dice, 0, longest - 1)), work);
}

std::array<int, 7> any_week(std::mt19937& dice) {
    std::array<int, 7> week{};
    for (int& available : week)
        available = pick(dice, 1, 4) == 1 ? 0 : 15 * pick(dice, 1, 8);
    return week;
}

struct Instance {
    Capacity capacity;
    std::vector<Load> loads;
};

std::vector<Load> retries(std::mt19937& dice, int count, int days, int window = 8) {
    std::vector<Load> loads;
    for (int i = 0; i < count; ++i) {
        const int opens = pick(dice, 0, days - window);
        loads.push_back(load(opens, opens + window - 1, 72 * pick(dice, 1, 15)));
    }
    return loads;
}

/// Each day's share by taking the fullest interval again and again, as the theorem is stated.
std::map<int, double> shares_by_fullest_interval(const Instance& instance) {
    std::set<int> left;
    for (std::size_t i = 0; i < instance.capacity.available.size(); ++i)
        if (instance.capacity.available[i] > Seconds{0})
            left.insert(static_cast<int>(i));
    std::map<int, double> shares;
    const auto enclosed_work = [&](int from, int to) {
        std::int64_t work = 0;
        for (const Load& load : instance.loads) {
            const auto begin = left.lower_bound(distance_of(load.opens));
            const auto end = left.upper_bound(distance_of(load.closes));
            if (begin != end && from <= *begin && *std::prev(end) <= to)
                work += load.work.count();
        }
        return work;
    };
    while (!left.empty()) {
        std::int64_t best_work = -1;
        std::int64_t best_available = 1;
        std::pair<int, int> fullest;
        for (auto from = left.begin(); from != left.end(); ++from) {
            std::int64_t available = 0;
            for (auto to = from; to != left.end(); ++to) {
                available += instance.capacity.available[at(*to)].count();
                const std::int64_t work = enclosed_work(*from, *to);
                if (work * best_available <= best_work * available)
                    continue;
                best_work = work;
                best_available = available;
                fullest = {*from, *to};
            }
        }
        for (auto i = left.find(fullest.first); i != left.end() && *i <= fullest.second; i = left.erase(i))
            shares[*i] = static_cast<double>(best_work) / static_cast<double>(best_available);
    }
    return shares;
}

/// The seconds of each day if every load falls on some day of its window that is not off.
std::vector<double> placed_anywhere(std::mt19937& dice, const Instance& instance) {
    std::vector<double> planned(instance.capacity.available.size());
    for (const Load& load : instance.loads) {
        std::vector<int> days;
        for (int i = distance_of(load.opens); i <= distance_of(load.closes); ++i)
            if (instance.capacity.available[at(i)] > Seconds{0})
                days.push_back(i);
        if (!days.empty())
            planned[at(one_of(dice, days))] += static_cast<double>(load.work.count());
    }
    return planned;
}

} // namespace

TEST_CASE("no placement beats the bound") {
    std::mt19937 dice(10);
    for (int i = 0; i < 400; ++i) {
        Instance instance{by_weekday(30, any_week(dice)), {}};
        for (int k = pick(dice, 1, 40); k > 0; --k)
            instance.loads.push_back(load_anywhere(dice, 30, 10, 72 * pick(dice, 1, 15)));
        const SpreadBound bound = spread_bound(instance.capacity, instance.loads);
        CAPTURE(i);
        for (int k = 0; k < 20; ++k) {
            const std::vector<double> planned = placed_anywhere(dice, instance);
            double evenness = 0;
            double fullest = 0;
            for (std::size_t t = 0; t < planned.size(); ++t)
                if (const auto available = static_cast<double>(instance.capacity.available[t].count());
                    available > 0) {
                    evenness += planned[t] * planned[t] / available;
                    fullest = std::max(fullest, planned[t] / available);
                }
            CHECK(evenness >= bound.evenness * (1 - 1e-12));
            CHECK(fullest >= bound.fullest_share * (1 - 1e-12));
        }
    }
}

TEST_CASE("the bound's shares are those of taking the fullest interval again and again") {
    std::mt19937 dice(11);
    for (int i = 0; i < 300; ++i) {
        Instance instance{{first, {}}, {}};
        const int days = pick(dice, 1, 14);
        for (int k = 0; k < days; ++k)
            instance.capacity.available.push_back(Seconds{one_of(dice, {0, 1, 1, 2, 3, 5})});
        for (int k = pick(dice, 0, 12); k > 0; --k)
            instance.loads.push_back(load_anywhere(dice, days, days, pick(dice, 1, 6)));
        std::map<int, double> shares;
        for (const SpreadBound::Interval& interval :
             spread_bound(instance.capacity, instance.loads).intervals)
            for (const Day one : interval.days)
                shares[distance_of(one)] = interval.share;
        CAPTURE(i);
        for (const auto& [one, share] : shares_by_fullest_interval(instance))
            CHECK_THAT(shares[one], WithinAbs(share, 1e-12));
    }
}

TEST_CASE("the bound of a single window is one share over its days") {
    const Capacity capacity{first, {minutes{90}, minutes{60}, minutes{0}, minutes{30}, minutes{90}}};
    const SpreadBound bound = spread_bound(capacity, {load(1, 3, 1200), load(1, 3, 1500)});
    REQUIRE(bound.intervals.size() == 1);
    CHECK(bound.intervals[0].days == std::vector{day(1), day(3)});
    CHECK_THAT(bound.intervals[0].share, WithinRel(0.5, 1e-12));
    CHECK_THAT(bound.fullest_share, WithinRel(0.5, 1e-12));
    CHECK_THAT(bound.evenness, WithinRel(1350.0, 1e-12));
}

TEST_CASE("the bound takes the fullest interval first, and the rest with a gap in its place") {
    const SpreadBound bound = spread_bound(even_days(5, Seconds{10}), {load(0, 4, 8), load(2, 2, 9)});
    REQUIRE(bound.intervals.size() == 2);
    CHECK(bound.intervals[0].days == std::vector{day(2)});
    CHECK_THAT(bound.intervals[0].share, WithinRel(0.9, 1e-12));
    CHECK(bound.intervals[1].days == std::vector{day(0), day(1), day(3), day(4)});
    CHECK_THAT(bound.intervals[1].share, WithinRel(0.2, 1e-12));
    CHECK_THAT(bound.evenness, WithinRel(8.1 + 1.6, 1e-12));
}

TEST_CASE("the bound goes by a placed load's window and leaves out windows with nothing available") {
    CHECK_THAT(spread_bound(even_days(2, Seconds{10}), {load(0, 1, 10, day(1))}).fullest_share,
               WithinRel(0.5, 1e-12));
    const Capacity capacity{first, {minutes{0}, minutes{0}, minutes{10}}};
    CHECK(spread_bound(capacity, {load(0, 1, 720)}).intervals.empty());
    CHECK_THAT(spread_bound(capacity, {load(0, 1, 720), load(0, 2, 60)}).fullest_share,
               WithinRel(0.1, 1e-12));
}

TEST_CASE("the bound's intervals do all the work, fullest first") {
    std::mt19937 dice(12);
    const Capacity capacity = by_weekday(1500, {45, 60, 45, 60, 30, 120, 0});
    const std::vector<Load> loads = retries(dice, 3000, 1500);
    const SpreadBound bound = spread_bound(capacity, loads);
    double work = 0;
    std::set<Day> days;
    for (std::size_t i = 0; i < bound.intervals.size(); ++i) {
        const SpreadBound::Interval& interval = bound.intervals[i];
        CHECK((i == 0 || interval.share <= bound.intervals[i - 1].share));
        CHECK(std::is_sorted(interval.days.begin(), interval.days.end()));
        for (const Day one : interval.days) {
            CHECK(days.insert(one).second);
            work += interval.share * static_cast<double>(capacity.available[at(distance_of(one))].count());
        }
    }
    const Seconds planned = std::accumulate(loads.begin(), loads.end(), Seconds{0},
                                            [](Seconds sum, const Load& one) { return sum + one.work; });
    CHECK_THAT(work, WithinRel(static_cast<double>(planned.count()), 1e-9));
}
