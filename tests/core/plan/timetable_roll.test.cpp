#include "inkturn/plan/roll.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "dice.hpp"
#include "inkturn/plan/timetable.hpp"

#include <algorithm>
#include <optional>
#include <random>
#include <string>
#include <utility>

namespace {

using namespace inkturn;
using namespace inkturn::test;

} // namespace

TEST_CASE("looking or not on the days between, the next day's timetable is the same", "[long]") {
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

TEST_CASE("late retries come in the order in which their windows closed, whatever was done or not since") {
    Candidate candidate = ::candidate();
    sit(candidate, paper("pure-1", "", 6, 10), day(-30), 0);
    sit(candidate, paper("pure-2", "", 3, 10), day(-26), 0);
    for (SittingRecord& record : candidate.sittings)
        for (PartMarks& part : record.sitting.parts)
            part = PartMarks(MarksByPhase{}, Marks(10)); // without a reason, so without topics to relearn
    const TimetableRequest request = ::request({});
    KeptOn<Candidate> kept{day(-20), with_days_of(timetable(candidate, request, day(-20)), candidate)};
    const auto next = [&](const Candidate& before, Day today) {
        return with_days_of(timetable(before, request, today), before);
    };
    for (int today = -19; today < 14; ++today) {
        kept = rolled(kept, day(today), next);
        std::optional<std::pair<Day, Day>> before;
        for (const Retry& retry : retries_of(timetable(kept.kept, request, day(today)))) {
            if (!retry.late || !retry.day)
                continue;
            const std::pair<Day, Day> now{*retry.day, retry.window->closes};
            CAPTURE(today, to_text(retry.id));
            CHECK((!before || before->second <= now.second || before->first == now.first));
            before = now;
        }
    }
}
