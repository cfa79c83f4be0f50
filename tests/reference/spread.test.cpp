#include "core/plan/spread_bound.hpp"

#include "catch.hpp"

#include <cstddef>
#include <vector>

namespace {

using namespace inkturn;
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
