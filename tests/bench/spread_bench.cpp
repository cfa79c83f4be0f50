#include "inkturn/plan/spread.hpp"

#include <chrono>
#include <cstdint>
#include <cstdio>
#include <vector>

namespace {

using namespace inkturn;

constexpr Day first{date::year{2026} / date::September / 7};

/// Numbers from 0 to `below` − 1, the same on every machine.
class Dice {
  public:
    int roll(int below) {
        state_ = state_ * 6364136223846793005U + 1442695040888963407U;
        return static_cast<int>((state_ >> 33U) % static_cast<std::uint64_t>(below));
    }

  private:
    std::uint64_t state_ = 20260907;
};

Capacity school_year(int days, const std::vector<int>& weekday_minutes) {
    Capacity capacity{first, {}};
    for (int day = 0; day < days; ++day)
        capacity.available.push_back(
            std::chrono::minutes{weekday_minutes[static_cast<std::size_t>(day % 7)]});
    return capacity;
}

Load retry(Dice& dice, int opens) {
    const Day day = first + Days{opens};
    return {day, day + Days{7}, Seconds{72 * (1 + dice.roll(15))}, {}};
}

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

void spread_one(const Capacity& capacity, int count) {
    Dice dice;
    std::vector<Load> loads;
    for (int i = 0; i < count; ++i)
        loads.push_back(retry(dice, dice.roll(static_cast<int>(capacity.available.size()) - 7)));

    const auto start = std::chrono::steady_clock::now();
    const std::vector<Day> days = spread(capacity, loads);
    const double spreading = seconds_since(start);
    const auto start_of_bound = std::chrono::steady_clock::now();
    const SpreadBound bound = spread_bound(capacity, loads);
    const double bounding = seconds_since(start_of_bound);

    const PlacementCost weight = placement_cost(capacity, loads, days);
    std::printf("%6d loads over %3zu days: %.4f s, bound %.4f s; over %lld s, evenness / bound %.6f, "
                "fullest share %.3f / %.3f\n",
                count, capacity.available.size(), spreading, bounding,
                static_cast<long long>(weight.over.count()), weight.evenness / bound.evenness,
                fullest_share(capacity, loads, days), bound.fullest_share);
}

void spread_a_class(int candidates) {
    Dice dice;
    const Capacity capacity = school_year(12 * 7 + 15, {60, 60, 45, 60, 30, 120, 0});
    double spreading = 0;
    double reached = 0;
    double least = 0;
    for (int candidate = 0; candidate < candidates; ++candidate) {
        std::vector<Load> loads;
        for (int sitting = 0; sitting < 12; ++sitting)
            for (int missed = 6 + dice.roll(5); missed > 0; --missed)
                loads.push_back(retry(dice, 7 * sitting + 14));
        const auto start = std::chrono::steady_clock::now();
        const std::vector<Day> days = spread(capacity, loads);
        spreading += seconds_since(start);
        reached += placement_cost(capacity, loads, days).evenness;
        least += spread_bound(capacity, loads).evenness;
    }
    std::printf("%6d candidates of about 100 loads: %.4f s, evenness / bound %.6f\n", candidates, spreading,
                reached / least);
}

} // namespace

int main() {
    spread_one(school_year(365, {300, 360, 300, 360, 240, 600, 0}), 10'000);
    spread_one(school_year(120, {45, 60, 45, 60, 30, 120, 0}), 600);
    spread_a_class(2'000);
}
