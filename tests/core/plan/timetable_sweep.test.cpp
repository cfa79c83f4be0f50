#include "inkturn/plan/timetable.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "dice.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <random>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

} // namespace

TEST_CASE("a plan shows its days' work and room, and is never below its bound") {
    std::mt19937 dice(11);
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        Candidate candidate = ::candidate();
        for (Seconds& time : candidate.availability.week)
            time = std::chrono::minutes(30 * pick(dice, 0, 5));
        for (int i = pick(dice, 0, 3); i > 0; --i)
            sit(candidate, paper("old-" + std::to_string(i), "pure", pick(dice, 1, 8)),
                day(-pick(dice, 0, 20)), static_cast<std::size_t>(pick(dice, 0, 1)));
        std::sort(candidate.sittings.begin(), candidate.sittings.end(),
                  [](const auto& a, const auto& b) { return a.sitting.day < b.sitting.day; });
        if (pick(dice, 0, 2) > 0)
            candidate.exams = {{"Pure", day(pick(dice, 1, 90)), "pure"}};
        const Timetable made = timetable(candidate, request(papers(pick(dice, 0, 6), "pure")), day(0));
        const int first = pick(dice, 0, 30);
        const DaySpan span{day(first), day(first + pick(dice, 0, 40))};
        const Plan shown = plan(made, candidate, span);
        CHECK(made.fullest_share_bound <= made.fullest_share + 1e-9);
        CHECK(made.evenness_bound <= made.evenness + 1e-6);
        Seconds over{0};
        for (const PlannedDay& each : shown.days) {
            Seconds request{0};
            for (const WorkItem& item : each.items)
                request += item.duration;
            CHECK(each.planned == request);
            over += std::max(Seconds(0), each.planned + each.reserved - each.available);
        }
        CHECK(over == Seconds(0));
    }
}

TEST_CASE("a plan that is made again the same day is left alone, and one made anew is the same each time") {
    std::mt19937 dice(94);
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        Candidate candidate = ::candidate();
        for (Seconds& time : candidate.availability.week)
            time = std::chrono::minutes(30 * pick(dice, 0, 5));
        for (int i = pick(dice, 0, 2); i > 0; --i)
            sit(candidate, paper("old-" + std::to_string(i), "pure", pick(dice, 1, 8)),
                day(-7 * i + pick(dice, 0, 3)), static_cast<std::size_t>(pick(dice, 0, 1)));
        std::sort(candidate.sittings.begin(), candidate.sittings.end(),
                  [](const auto& a, const auto& b) { return a.sitting.day < b.sitting.day; });
        candidate.exams = {{"Pure", day(pick(dice, 24, 80)), "pure"}};
        if (pick(dice, 0, 1) > 0)
            candidate.exams.push_back({"Mechanics", day(pick(dice, 24, 80)), "mechanics"});
        auto on_file = papers(pick(dice, 1, 6), "pure");
        for (const auto& other : papers(pick(dice, 0, 4), "mechanics"))
            on_file.push_back(other);

        const Timetable made = timetable(candidate, request(on_file), day(0));
        const Timetable anew = timetable(candidate, request(on_file, PlacementMode::again), day(0));
        keep(candidate, made);
        const Timetable later = timetable(candidate, request(on_file), day(0));
        CHECK(changes(candidate, later, day(0)).empty());
        CHECK(later.short_by == made.short_by);
        CHECK(days_of_papers(later) == days_of_papers(made));
        REQUIRE(later.reservations.size() == made.reservations.size());
        for (std::size_t i = 0; i < made.reservations.size(); ++i)
            CHECK(later.reservations[i].day == made.reservations[i].day);
        CHECK(days_of_papers(timetable(candidate, request(on_file, PlacementMode::again), day(0))) ==
              days_of_papers(anew));
    }
}

TEST_CASE("a plan that nobody keeps to goes on to the exam, each piece in the days left to it") {
    std::mt19937 dice(23);
    for (int round = 0; round < 12; ++round) {
        CAPTURE(round);
        Candidate candidate = ::candidate();
        for (Seconds& time : candidate.availability.week)
            time = std::chrono::minutes(30 * pick(dice, 0, 3));
        candidate.exams = {{"Pure", day(pick(dice, 18, 40)), "pure"}};
        sit(candidate, paper("old-1", "pure", pick(dice, 1, 8)), day(-pick(dice, 0, 3)), 0);
        const auto on_file = papers(pick(dice, 0, 3), "pure");
        for (Day today = day(0); today < candidate.exams[0].day + Days{3}; today += Days{1}) {
            CAPTURE(iso(today));
            if (pick(dice, 0, 4) == 0)
                candidate.availability.dates[today + Days{pick(dice, 0, 2)}] = Seconds(0);
            const Timetable made = timetable(candidate, request(on_file), today);
            for (const WorkItem& item : made.items)
                if (item.day) {
                    CHECK(*item.day >= today);
                    CHECK(*item.day < candidate.exams[0].day);
                    CHECK(item.possible_days->first <= *item.day);
                    CHECK(*item.day <= item.possible_days->last);
                }
            keep(candidate, made);
        }
    }
}

TEST_CASE("the pieces of a topic follow each other") {
    std::mt19937 dice(5);
    for (int round = 0; round < 40; ++round) {
        Candidate candidate = ::candidate();
        for (Seconds& time : candidate.availability.week)
            time = std::chrono::minutes(30 * pick(dice, 0, 3));
        candidate.availability.week[static_cast<std::size_t>(pick(dice, 0, 6))] = Seconds(3600);
        sit(candidate, paper("pure-1", "pure"), day(0), static_cast<std::size_t>(pick(dice, 0, 4)));
        std::map<std::string, Day> before;
        for (const WorkItem& item : timetable(candidate, request({}), day(pick(dice, 0, 12))).items)
            if (const auto* topic = std::get_if<TopicToRelearn>(&item.work); topic && item.day) {
                const auto [found, is_first] = before.try_emplace(topic->topic, *item.day);
                if (!is_first)
                    CHECK(found->second <= *item.day);
                CHECK(topic->piece == (is_first ? 1 : 2));
            }
    }
}

TEST_CASE("what would make it fit does so beside the days that are on file too") {
    std::mt19937 dice(3);
    int tried = 0;
    for (int round = 0; round < 40; ++round) {
        CAPTURE(round);
        Candidate candidate = ::candidate();
        for (Seconds& time : candidate.availability.week)
            time = std::chrono::minutes(30 * pick(dice, 0, 2));
        candidate.availability.week[static_cast<std::size_t>(pick(dice, 0, 6))] = std::chrono::minutes(100);
        const int exam = pick(dice, 24, 60);
        candidate.exams = {{"Pure", day(exam), "pure"}, {"Mechanics", day(exam + 4), "mechanics"}};
        for (int i = pick(dice, 0, 3); i > 0; --i)
            candidate.availability.dates[day(7 * i + pick(dice, 0, 6))] = Seconds(0);
        auto on_file = papers(pick(dice, 2, 6), "pure");
        for (const auto& other : papers(pick(dice, 0, 4), "mechanics"))
            on_file.push_back(other);
        const Timetable made = timetable(candidate, request(on_file), day(0));
        keep(candidate, made);
        if (made.fit == PlanFit::fits)
            continue;
        for (const Remedy& remedy : remedies(candidate, request(on_file), day(0))) {
            Candidate mended = candidate;
            if (const auto* fewer = std::get_if<FewerPapers>(&remedy))
                mended.wishes.papers[fewer->subject] = {static_cast<int>(fewer->remaining), day(1)};
            else if (const auto* longer = std::get_if<LongerDay>(&remedy))
                mended.availability.week[longer->weekday] = longer->in_all;
            else if (const auto* more = std::get_if<MoreTime>(&remedy))
                for (Seconds& time : mended.availability.week)
                    time += time > Seconds(0) ? more->a_day : Seconds(0);
            else
                for (const Day off : std::get<UseDaysOff>(remedy).days)
                    mended.availability.dates[off] = std::get<UseDaysOff>(remedy).each;
            TimetableRequest as_asked = request(on_file);
            if (made.not_placed_time > Seconds(0)) // then what would help is for the work alone
                as_asked.turns = TurnsReserved::first;
            CHECK(timetable(mended, as_asked, day(0)).fit == PlanFit::fits);
            ++tried;
        }
    }
    CHECK(tried > 20);
}
