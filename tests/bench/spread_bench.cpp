#include "inkturn/plan/arrange.hpp"
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

/// A year of one candidate: retries, and papers that each bring some, an even share of the days each.
void arrange_a_year(int loads_count, int papers) {
    Dice dice;
    const Capacity capacity = school_year(365, {300, 300, 240, 300, 180, 400, 0});
    std::vector<Load> loads;
    for (int i = 0; i < loads_count; ++i)
        loads.push_back(retry(dice, dice.roll(365 - 7)));
    const int last_useful = 365 - 22;
    std::vector<Block> blocks;
    std::vector<Load> split = loads; // for the bound: what papers ask and bring, wherever it might fall
    for (int i = 0; i < papers; ++i) {
        const DaySpan share{first + Days{last_useful * i / papers},
                            first + Days{last_useful * (i + 1) / papers - 1}};
        blocks.push_back({{share}, Seconds{8100}, {}, std::vector<Seconds>(5, Seconds{378}), {}});
        split.push_back({share.first, share.last, Seconds{8100}, {}});
        split.push_back({share.first + Days{14}, share.last + Days{21}, Seconds{5 * 378}, {}});
    }

    const auto start = std::chrono::steady_clock::now();
    const Arrangement arranged = arrange(capacity, loads, blocks);
    const double arranging = seconds_since(start);
    int left_out = 0;
    for (const auto& day : arranged.blocks)
        left_out += day ? 0 : 1;
    std::printf("%6d loads and %d papers over a year: %.4f s; over %lld s, %d papers left out, evenness / "
                "bound %.6f\n",
                loads_count, papers, arranging, static_cast<long long>(arranged.over.count()), left_out,
                arranged.evenness / spread_bound(capacity, split).evenness);
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
    arrange_a_year(4760, 40); // 5,000 with the retries that are foreseen
    spread_a_class(2'000);
}
