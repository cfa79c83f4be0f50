#include "inkturn/plan/roll.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "dice.hpp"
#include "inkturn/plan/timetable.hpp"

#include <algorithm>
#include <random>
#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;

} // namespace

TEST_CASE("looking or not on the days between, the next day's timetable is the same") {
    std::mt19937 dice(41);
    int moved = 0;
    for (int round = 0; round < 12; ++round) {
        CAPTURE(round);
        Candidate candidate = ::candidate();
        for (Seconds& time : candidate.availability.week)
            time = std::chrono::minutes(30 * pick(dice, 0, 4));
        for (int i = pick(dice, 1, 2); i > 0; --i)
            sit(candidate, paper("old-" + std::to_string(i), "pure", pick(dice, 1, 6)), day(-7 * i), 0);
        std::sort(candidate.sittings.begin(), candidate.sittings.end(),
                  [](const auto& a, const auto& b) { return a.sitting.day < b.sitting.day; });
        if (pick(dice, 0, 2) > 0)
            candidate.exams = {{"Pure", day(pick(dice, 10, 60)), "pure"}};
        const TimetableRequest request = ::request(papers(pick(dice, 0, 3), "pure"));
        const auto next = [&](const Candidate& kept, Day today) {
            return with_days_of(timetable(kept, request, today), kept);
        };
        const auto days = [](const Candidate& kept) {
            std::string text;
            for (const Placement& placement : kept.placements)
                text += placement.question + iso(placement.day) + " ";
            for (const PlannedWork& planned : kept.planned)
                text += planned.name + iso(planned.day) + " ";
            return text;
        };
        const KeptOn<Candidate> stored{day(0), next(candidate, day(0))};
        KeptOn<Candidate> stored_on_the_way = stored;
        for (int today = 1; today < 25; today += pick(dice, 1, 6)) {
            CAPTURE(today);
            const KeptOn<Candidate> seen = rolled(stored, day(today), next);
            if (pick(dice, 0, 1) == 0)
                stored_on_the_way = rolled(stored_on_the_way, day(today), next);
            CHECK(days(rolled(stored_on_the_way, day(today), next).kept) == days(seen.kept));
            CHECK(days(next(seen.kept, day(today))) == days(seen.kept)); // planned once more that day
            moved += days(seen.kept) != days(stored.kept) ? 1 : 0;
        }
    }
    CHECK(moved > 20);
}
