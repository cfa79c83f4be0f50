#include "inkturn/plan/roll.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "dice.hpp"
#include "inkturn/plan/time_ahead.hpp"

#include <map>
#include <optional>
#include <random>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

using KeptDays = std::vector<std::optional<Day>>;

/// What is on file of one candidate, and nobody does any of it.
struct OnFile {
    struct Missed {
        Day attempt;
        Seconds work;
    };
    std::vector<Missed> missed;
    std::vector<Exam> exams;
    Availability availability;
};

KeptDays planned(const OnFile& on_file, const KeptDays& kept, Day today) {
    const TimeAhead time =
        time_ahead(on_file.availability, on_file.exams, Seconds(0), {today, today + Days{70}});
    std::vector<WorkPiece> pieces;
    for (std::size_t i = 0; i < on_file.missed.size(); ++i) {
        const Day attempt = on_file.missed[i].attempt;
        pieces.push_back(retry_piece(on_file.missed[i].work,
                                     window_by_exams(on_file.exams, "pure", attempt, today), attempt,
                                     static_cast<int>(i), time));
        pieces.back().kept_day = kept[i];
    }
    return place_work(time, pieces).days;
}

OnFile some_on_file(std::mt19937& dice) {
    OnFile on_file;
    for (int i = pick(dice, 1, 12); i > 0; --i)
        on_file.missed.push_back({day(-pick(dice, 0, 20)), Seconds(72 * pick(dice, 1, 20))});
    for (int i = pick(dice, 0, 2); i > 0; --i)
        on_file.exams.push_back({"E", day(pick(dice, 2, 50)), "pure"});
    for (Seconds& time : on_file.availability.week)
        time = std::chrono::minutes(15 * pick(dice, 0, 4));
    return on_file;
}

} // namespace

TEST_CASE("a plan of long ago is not gone through day by day") {
    const auto days_from = [](Day made_for) {
        return rolled(KeptOn<int>{made_for, 0}, day(0), [](int days, Day) { return days + 1; });
    };
    CHECK(days_from(day(-400)).kept == 400);
    CHECK(days_from(day(-20'000)).kept == 400);
    CHECK(days_from(day(-20'000)).made_for == day(0));
    CHECK(days_from(day(3)).made_for == day(3)); // the clock was set back
}

TEST_CASE("the next day's plan is the same whether anybody looked at the days between or not", "[long]") {
    std::mt19937 dice(7);
    int moved = 0;
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        const OnFile on_file = some_on_file(dice);
        const auto plan = [&](const KeptDays& kept, Day today) { return planned(on_file, kept, today); };
        const KeptOn<KeptDays> stored{day(0), planned(on_file, KeptDays(on_file.missed.size()), day(0))};
        KeptOn<KeptDays> stored_on_the_way = stored;
        for (int today = 1; today < 40; today += pick(dice, 1, 6)) {
            const KeptOn<KeptDays> seen = rolled(stored, day(today), plan);
            CHECK(rolled(stored, day(today), plan).kept == seen.kept); // looking changes nothing
            if (pick(dice, 0, 2) == 0)
                stored_on_the_way = rolled(stored_on_the_way, day(today), plan);
            CHECK(rolled(stored_on_the_way, day(today), plan).kept == seen.kept);
            CHECK(plan(seen.kept, day(today)) == seen.kept); // planned once more on the same day
            moved += seen.kept != stored.kept ? 1 : 0;
        }
    }
    CHECK(moved > 100);
}

TEST_CASE("an earlier day rolls nothing") {
    const KeptOn<int> kept{day(5), 3};
    const auto more = [](int before, Day) { return before + 1; };
    CHECK(rolled(kept, day(4), more).kept == 3);
    CHECK(rolled(kept, day(5), more).kept == 3);
    CHECK(rolled(kept, day(7), more).kept == 5);
    CHECK(rolled(kept, day(7), more).made_for == day(7));
}
