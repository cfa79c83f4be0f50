#include "inkturn/plan/spread.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "reference/glpsol.hpp"
#include "temp_folder.hpp"

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

constexpr Day first{date::year{2026} / date::September / 7};

Day day(int distance) {
    return first + Days{distance};
}

std::vector<Day> days_from(int opens, int closes) {
    std::vector<Day> days;
    for (int i = opens; i <= closes; ++i)
        days.push_back(day(i));
    return days;
}

struct Instance {
    std::vector<int> available; ///< seconds
    std::vector<Load> loads;
};

/// At most seven loads, which often don't fit.
Instance tight_instance(std::mt19937& engine) {
    Instance instance;
    const int days = pick(engine, 2, 8);
    for (int i = 0; i < days; ++i)
        instance.available.push_back(pick(engine, 0, 3) == 0 ? 0 : 60 * pick(engine, 5, 20));
    for (int i = pick(engine, 3, 7); i > 0; --i) {
        const int opens = pick(engine, 0, days - 1);
        const int closes = std::min(days - 1, opens + pick(engine, 0, 5));
        instance.loads.push_back({day(opens), day(closes), Seconds{72 * pick(engine, 1, 15)}, {}});
    }
    return instance;
}

std::vector<int> days_allowed(const Instance& instance, const Load& load) {
    const auto opens = static_cast<int>((load.opens - first).count());
    const auto closes = static_cast<int>((load.closes - first).count());
    std::vector<int> allowed;
    for (int i = opens; i <= closes; ++i)
        if (instance.available[static_cast<std::size_t>(i)] > 0)
            allowed.push_back(i);
    return allowed.empty() ? std::vector<int>{opens} : allowed;
}

std::string choice(std::size_t load, int day) {
    return "load" + std::to_string(load) + "_day" + std::to_string(day);
}

/// The integer programme of the least total time above availability, in CPLEX LP format.
void write_programme(const Instance& instance, const std::filesystem::path& file) {
    std::vector<std::string> asked(instance.available.size());
    std::string one_day_each;
    std::string choices;
    for (std::size_t i = 0; i < instance.loads.size(); ++i) {
        std::string days;
        for (const int day : days_allowed(instance, instance.loads[i])) {
            const std::string taken = choice(i, day);
            asked[static_cast<std::size_t>(day)] +=
                " + " + std::to_string(instance.loads[i].work.count()) + " " + taken + "\n";
            days += " + " + taken + "\n";
            choices += " " + taken + "\n";
        }
        one_day_each += " one_day" + std::to_string(i) + ":" + days + " = 1\n";
    }
    std::string over;
    std::string limits;
    for (std::size_t day = 0; day < asked.size(); ++day) {
        const std::string over_day = "over" + std::to_string(day);
        over += " + " + over_day + "\n";
        limits += " limit" + std::to_string(day) + ":" + asked[day] + " - " + over_day +
                  " <= " + std::to_string(instance.available[day]) + "\n";
    }
    std::ofstream out(file);
    out << "Minimize\n over:" << over << "Subject To\n"
        << limits << one_day_each << "Binary\n"
        << choices << "End\n";
    REQUIRE(out.flush());
}

} // namespace

TEST_CASE(
    "the critical intervals of instance A are those of Yao, Demers & Shenker 1995 (FOCS, \"A scheduling "
    "model for reduced CPU energy\")",
    "[reference]") {
    struct Job {
        int release;
        int deadline; ///< half-open
        int work;
    };
    const std::vector<Job> jobs{{0, 17, 5}, {1, 11, 3},   {12, 20, 4}, {7, 11, 2},
                                {1, 20, 4}, {14, 20, 12}, {14, 17, 4}, {1, 7, 2}};
    std::vector<Load> loads;
    for (const Job& job : jobs)
        loads.push_back({day(job.release), day(job.deadline - 1), Seconds{job.work}, {}});

    const SpreadBound bound = spread_bound({first, std::vector<Seconds>(20, Seconds{1})}, loads);

    REQUIRE(bound.intervals.size() == 3);
    CHECK(bound.intervals[0].days == days_from(14, 19));
    CHECK_THAT(bound.intervals[0].share, WithinAbs(8.0 / 3, 1e-15));
    CHECK(bound.intervals[1].days == days_from(12, 13));
    CHECK_THAT(bound.intervals[1].share, WithinAbs(2, 1e-15));
    CHECK(bound.intervals[2].days == days_from(0, 11));
    CHECK_THAT(bound.intervals[2].share, WithinAbs(4.0 / 3, 1e-15));
    CHECK_THAT(bound.fullest_share, WithinAbs(8.0 / 3, 1e-15));
    CHECK_THAT(bound.evenness, WithinAbs(72, 1e-12));

    double from_intervals = 0;
    for (const SpreadBound::Interval& interval : bound.intervals)
        from_intervals += interval.share * interval.share * static_cast<double>(interval.days.size());
    CHECK_THAT(from_intervals, WithinAbs(72, 1e-12));
}

TEST_CASE("the total time above availability is the optimum of GLPK (glpsol) on 50 instances",
          "[reference]") {
    const TempFolder folder;
    const std::filesystem::path programme = folder.path() / "spread.lp";
    const std::filesystem::path solution = folder.path() / "spread.out";
    std::mt19937 engine(1995);
    int do_not_fit = 0;
    for (int i = 0; i < 50; ++i) {
        const Instance instance = tight_instance(engine);
        write_programme(instance, programme);
        run_glpsol(programme, solution);
        Capacity capacity{first, {}};
        for (const int available : instance.available)
            capacity.available.push_back(Seconds{available});
        const PlacementCost weight =
            placement_cost(capacity, instance.loads, spread(capacity, instance.loads));
        CAPTURE(i);
        CHECK_THAT(static_cast<double>(weight.over.count()), WithinAbs(objective(solution), 1e-6));
        do_not_fit += weight.over > Seconds{0} ? 1 : 0;
    }
    CHECK(do_not_fit >= 20);
    CHECK(do_not_fit < 50);
}
