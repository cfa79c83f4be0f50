#include "inkturn/plan/spread.hpp"

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

/// At most seven loads to place, in windows of at most six days.
Instance small_instance(std::mt19937& dice, const std::vector<int>& availabilities) {
    Instance instance{{first, {}}, {}};
    const int days = pick(dice, 1, 12);
    for (int i = 0; i < days; ++i)
        instance.capacity.available.push_back(Seconds{one_of(dice, availabilities)});
    const int max_marks = one_of(dice, {1, 3, 15});
    for (int i = pick(dice, 1, 7); i > 0; --i) {
        instance.loads.push_back(load_anywhere(dice, days, 6, 72 * pick(dice, 1, max_marks)));
    }
    for (int i = pick(dice, 0, 3); i > 0; --i) {
        const int placed = pick(dice, 0, days - 1);
        instance.loads.push_back(load(0, days - 1, 72 * pick(dice, 1, max_marks), day(placed)));
    }
    return instance;
}

std::vector<int> days_allowed(const Instance& instance, const Load& load) {
    if (load.fixed_day)
        return {distance_of(*load.fixed_day)};
    std::vector<int> allowed;
    for (int i = distance_of(load.opens); i <= distance_of(load.closes); ++i)
        if (instance.capacity.available[at(i)] > Seconds{0})
            allowed.push_back(i);
    return allowed.empty() ? std::vector<int>{distance_of(load.opens)} : allowed;
}

/// Seconds over, the sum of L²/c times a common multiple of all c, days.
using Outcome = std::tuple<std::int64_t, std::int64_t, std::int64_t>;

/// Tries every placement. The common multiple makes every comparison exact.
class Exhaustive {
  public:
    Exhaustive(const Instance& instance, std::int64_t multiple)
        : instance_(instance), multiple_(multiple), planned_(instance.capacity.available.size()) {}

    Outcome best() {
        place_from(0, 0);
        return *best_;
    }

    Outcome of(const std::vector<Day>& days) {
        std::vector<std::int64_t> planned(planned_.size());
        std::int64_t day_sum = 0;
        for (std::size_t i = 0; i < days.size(); ++i) {
            planned[at(distance_of(days[i]))] += instance_.loads[i].work.count();
            day_sum += distance_of(days[i]);
        }
        return outcome(planned, day_sum);
    }

  private:
    void place_from(std::size_t i, std::int64_t day_sum) {
        if (i == instance_.loads.size()) {
            const Outcome reached = outcome(planned_, day_sum);
            best_ = best_ ? std::min(*best_, reached) : reached;
            return;
        }
        for (const int day : days_allowed(instance_, instance_.loads[i])) {
            planned_[at(day)] += instance_.loads[i].work.count();
            place_from(i + 1, day_sum + day);
            planned_[at(day)] -= instance_.loads[i].work.count();
        }
    }

    Outcome outcome(const std::vector<std::int64_t>& planned, std::int64_t day_sum) const {
        std::int64_t over = 0;
        std::int64_t unevenness = 0;
        for (std::size_t i = 0; i < planned.size(); ++i) {
            const std::int64_t available = instance_.capacity.available[i].count();
            over += std::max<std::int64_t>(0, planned[i] - available);
            if (available > 0)
                unevenness += planned[i] * planned[i] * (multiple_ / available);
        }
        return {over, unevenness, day_sum};
    }

    const Instance& instance_;
    std::int64_t multiple_;
    std::vector<std::int64_t> planned_;
    std::optional<Outcome> best_;
};

void check_is_allowed(const Instance& instance, const std::vector<Day>& days) {
    REQUIRE(days.size() == instance.loads.size());
    for (std::size_t i = 0; i < days.size(); ++i) {
        const std::vector<int> allowed = days_allowed(instance, instance.loads[i]);
        CHECK(std::count(allowed.begin(), allowed.end(), distance_of(days[i])) == 1);
    }
}

void check_is_best(const Instance& instance, std::int64_t multiple) {
    const std::vector<Day> days = spread(instance.capacity, instance.loads);
    check_is_allowed(instance, days);
    Exhaustive exhaustive(instance, multiple);
    CHECK(exhaustive.of(days) == exhaustive.best());
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

} // namespace

TEST_CASE("no loads take no days") {
    CHECK(spread(even_days(3, minutes{30}), {}).empty());
    CHECK(spread({first, {}}, {}).empty());
    CHECK(placement_cost(even_days(3, minutes{30}), {}, {}).over == Seconds{0});
    CHECK(spread_bound(even_days(3, minutes{30}), {}).intervals.empty());
}

TEST_CASE("a lone load goes to the earliest of the days with most time") {
    const Capacity capacity{first, {minutes{30}, minutes{60}, minutes{60}}};
    CHECK(spread(capacity, {load(0, 2, 720)}) == std::vector{day(1)});
}

TEST_CASE("no time above what is available comes before even shares") {
    const Capacity capacity{first, {Seconds{100}, Seconds{1000}}};
    const std::vector<Load> loads{load(1, 1, 890), load(0, 1, 110)};
    CHECK(spread(capacity, loads) == std::vector{day(1), day(1)});
}

TEST_CASE("a day off is used only where the window has no other day, and then its first") {
    const Capacity capacity{first, {minutes{0}, minutes{0}, minutes{1}, minutes{0}}};
    const std::vector<Load> loads{load(0, 1, 3600), load(0, 2, 3600), load(0, 3, 3600), load(3, 3, 72)};
    CHECK(spread(capacity, loads) == std::vector{day(0), day(2), day(2), day(3)});
}

TEST_CASE("where all days are off each load goes to the first of its window") {
    const std::vector<Load> loads{load(1, 4, 72), load(0, 4, 72), load(4, 4, 144)};
    const std::vector<Day> days = spread(even_days(5, Seconds{0}), loads);
    CHECK(days == std::vector{day(1), day(0), day(4)});
    CHECK(placement_cost(even_days(5, Seconds{0}), loads, days).over == Seconds{288});
    CHECK_THAT(placement_cost(even_days(5, Seconds{0}), loads, days).evenness, WithinAbs(0, 0));
}

TEST_CASE("a placed load stays, even on a day off or outside its window, and the others make room") {
    const Capacity capacity{first, {minutes{30}, minutes{30}, minutes{0}, minutes{30}}};
    const std::vector<Load> loads{load(0, 1, 720, day(0)), load(0, 1, 720), load(0, 1, 72, day(2)),
                                  load(0, 1, 72, day(3))};
    const std::vector<Day> days = spread(capacity, loads);
    CHECK(days == std::vector{day(0), day(1), day(2), day(3)});
    CHECK(placement_cost(capacity, loads, days).over == Seconds{72});
}

TEST_CASE("of loads that are alike the first in the list comes first") {
    const std::vector<Load> loads(4, load(0, 3, 360));
    CHECK(spread(even_days(4, minutes{30}), loads) == std::vector{day(0), day(1), day(2), day(3)});
    const std::vector<Load> many(12, load(0, 3, 360));
    const std::vector<Day> days = spread(even_days(4, minutes{30}), many);
    CHECK(std::is_sorted(days.begin(), days.end()));
    CHECK(std::count(days.begin(), days.end(), day(3)) == 3);
}

TEST_CASE("the weight counts time over, squared time over availability, and days") {
    const Capacity capacity{first, {Seconds{100}, Seconds{0}, Seconds{50}}};
    const std::vector<Load> loads{load(0, 2, 90), load(0, 2, 30), load(0, 2, 7), load(0, 2, 20)};
    const std::vector<Day> days{day(0), day(0), day(1), day(2)};
    const PlacementCost weight = placement_cost(capacity, loads, days);
    CHECK(weight.over == Seconds{27});
    CHECK_THAT(weight.evenness, WithinRel(152.0, 1e-12));
    CHECK(weight.day_sum == 3);
    CHECK_THAT(fullest_share(capacity, loads, days), WithinRel(1.2, 1e-12));
    CHECK_THAT(fullest_share(capacity, {}, {}), WithinAbs(0, 0));
}

TEST_CASE("small instances are placed as well as the best of all placements") {
    std::mt19937 dice(1);
    for (int i = 0; i < 700; ++i) {
        CAPTURE(i);
        check_is_best(small_instance(dice, {0, 0, 1800, 2700, 3600, 5400, 7200, 60, 120}), 21'600);
    }
    for (int i = 0; i < 200; ++i) {
        CAPTURE(i);
        check_is_best(small_instance(dice, {0, 601, 1777, 3001}), std::int64_t{601} * 1777 * 3001);
    }
}

TEST_CASE("seven loads in windows of six days are placed as well as the best of all placements") {
    std::mt19937 dice(2);
    for (const int days : {6, 6, 6, 9, 9, 11}) {
        CAPTURE(days);
        check_is_best({by_weekday(days, {30, 45, 60, 90, 120, 60, 45}), retries(dice, 7, days, 6)}, 21'600);
    }
}

TEST_CASE("every load of a larger instance is placed in its window and on no needless day off") {
    std::mt19937 dice(4);
    for (int i = 0; i < 60; ++i) {
        Instance instance{by_weekday(60, any_week(dice)), retries(dice, pick(dice, 8, 150), 60)};
        for (int k = 0; k < 10; ++k)
            instance.loads.push_back(load_anywhere(dice, 60, 4, 72));
        for (std::size_t k = 0; k < instance.loads.size(); k += 10)
            instance.loads[k].fixed_day = day(pick(dice, 0, 59));
        CAPTURE(i);
        check_is_allowed(instance, spread(instance.capacity, instance.loads));
    }
}

TEST_CASE("the order of the loads changes nothing about the weight") {
    std::mt19937 dice(5);
    std::mt19937 engine(5);
    for (const int count : {3, 7, 20, 120}) {
        const Capacity capacity = by_weekday(40, {60, 45, 60, 0, 30, 120, 0});
        std::vector<Load> loads = retries(dice, count, 40);
        const PlacementCost before = placement_cost(capacity, loads, spread(capacity, loads));
        std::shuffle(loads.begin(), loads.end(), engine);
        const PlacementCost after = placement_cost(capacity, loads, spread(capacity, loads));
        CAPTURE(count);
        CHECK(after.over == before.over);
        CHECK_THAT(after.evenness, WithinRel(before.evenness, 1e-12));
        CHECK(after.day_sum == before.day_sum);
    }
}

TEST_CASE("the same loads are placed the same way again, and what was placed stays") {
    std::mt19937 dice(7);
    const Capacity capacity = by_weekday(60, {60, 45, 60, 0, 30, 120, 0});
    std::vector<Load> loads = retries(dice, 200, 60);
    const std::vector<Day> days = spread(capacity, loads);
    CHECK(spread(capacity, loads) == days);
    for (std::size_t i = 0; i < loads.size(); i += 2)
        loads[i].fixed_day = days[i];
    const std::vector<Day> again = spread(capacity, loads);
    for (std::size_t i = 0; i < loads.size(); i += 2)
        CHECK(again[i] == days[i]);
}

TEST_CASE("600 retries over 120 days are within 1% of what no placement can beat") {
    for (unsigned seed = 1; seed <= 10; ++seed) {
        std::mt19937 dice(seed);
        const Capacity capacity = by_weekday(120, {60, 75, 60, 75, 45, 150, 0});
        const std::vector<Load> loads = retries(dice, 600, 120);
        const std::vector<Day> days = spread(capacity, loads);
        const SpreadBound bound = spread_bound(capacity, loads);
        CAPTURE(seed);
        REQUIRE(bound.fullest_share <= 0.95);
        CHECK(placement_cost(capacity, loads, days).over == Seconds{0});
        CHECK(placement_cost(capacity, loads, days).evenness <= 1.01 * bound.evenness);
    }
}

TEST_CASE("10,000 retries over a year are within 1% of what no placement can beat") {
    std::mt19937 dice(8);
    const Capacity capacity = by_weekday(365, {300, 360, 300, 360, 240, 600, 0});
    const std::vector<Load> loads = retries(dice, 10'000, 365);
    const std::vector<Day> days = spread(capacity, loads);
    const SpreadBound bound = spread_bound(capacity, loads);
    CHECK(placement_cost(capacity, loads, days).over == Seconds{0});
    CHECK(placement_cost(capacity, loads, days).evenness <= 1.01 * bound.evenness);
    CHECK(placement_cost(capacity, loads, days).evenness >= bound.evenness);
}

TEST_CASE("a great many loads in one window are spread over it evenly") {
    const Capacity capacity = by_weekday(8, {45, 60, 45, 60, 30, 120, 0});
    std::mt19937 dice(9);
    std::vector<Load> loads;
    for (int i = 0; i < 10'000; ++i)
        loads.push_back(load(0, 7, pick(dice, 1, 3600)));
    const std::vector<Day> days = spread(capacity, loads);
    const SpreadBound bound = spread_bound(capacity, loads);
    CHECK(placement_cost(capacity, loads, days).evenness <= 1.0001 * bound.evenness);
}

TEST_CASE("a thousand loads in a window of one day are placed there") {
    const std::vector<Load> loads(1000, load(1, 1, 3600));
    const std::vector<Day> days = spread(even_days(3, minutes{10}), loads);
    CHECK(days == std::vector<Day>(1000, day(1)));
    CHECK(placement_cost(even_days(3, minutes{10}), loads, days).over == Seconds{3'600'000 - 600});
}

TEST_CASE("loads of decades are spread like any others") {
    const std::vector<Load> loads(20, Load{day(0), day(3), Seconds{1'000'000'000'000}, {}});
    const std::vector<Day> days = spread(even_days(4, minutes{60}), loads);
    for (int i = 0; i < 4; ++i)
        CHECK(std::count(days.begin(), days.end(), day(i)) == 5);
    CHECK(spread(even_days(4, minutes{60}), {loads[0], loads[1]}).back() == day(1));
}

TEST_CASE("no placement beats the bound") {
    std::mt19937 dice(10);
    for (int i = 0; i < 400; ++i) {
        Instance instance{by_weekday(30, any_week(dice)), {}};
        for (int k = pick(dice, 1, 40); k > 0; --k)
            instance.loads.push_back(load_anywhere(dice, 30, 10, 72 * pick(dice, 1, 15)));
        const std::vector<Day> days = spread(instance.capacity, instance.loads);
        const SpreadBound bound = spread_bound(instance.capacity, instance.loads);
        CAPTURE(i);
        CHECK(placement_cost(instance.capacity, instance.loads, days).evenness >=
              bound.evenness * (1 - 1e-12));
        CHECK(fullest_share(instance.capacity, instance.loads, days) >= bound.fullest_share * (1 - 1e-12));
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
