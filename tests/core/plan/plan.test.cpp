#include "inkturn/plan/plan.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "dice.hpp"
#include "papers.hpp"

#include <algorithm>
#include <chrono>
#include <memory>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

/// A paper of which nothing was earned on the Monday: a retry a question.
Candidate candidate_with(const std::vector<int>& marks) {
    const auto paper = paper_of("made-up", marks, "");
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(
        {SittingId{1}, paper, {monday, {}, std::vector<PartMarks>(marks.size())}, {}});
    return candidate;
}

Timetable made_on(const Candidate& candidate, int today) {
    TimetableRequest of_work;
    of_work.turns = TurnsReserved::first;
    return timetable(candidate, of_work, day(today));
}

Plan plan_of(const Candidate& candidate, int first, int last, int today = 0) {
    return plan(made_on(candidate, today), candidate, {day(first), day(last)});
}

/// With the retries of open_retries(), and what is planned from that day on.
Timetable timetable_on(const Candidate& candidate, Day today, PlacementMode mode = PlacementMode::keep) {
    Timetable timetable;
    for (const Retry& retry : open_retries(candidate, today, mode))
        timetable.items.push_back({retry, retry.allowance, retry.possible_days, retry.day});
    for (const PlannedWork& planned : candidate.planned) {
        if (planned.day < today || !is_to_do(candidate, planned))
            continue;
        const DaySpan days{planned.day, planned.day};
        WorkItem::Work work;
        if (planned.what == WorkPurpose::sit) {
            PaperToSit to_sit;
            to_sit.subject = planned.subject;
            to_sit.paper = std::make_shared<const Paper>(
                PaperHead{planned.name, "", planned.subject, {}, RetryBy::question},
                std::vector<Part>{{"1", Marks(5), "", ""}});
            work = to_sit;
        } else if (planned.what == WorkPurpose::relearn) {
            work = TopicToRelearn{planned.subject, planned.name, Marks(1), days, planned.number};
        } else if (planned.what == WorkPurpose::recall) {
            work = RecallGroup{{FactId{std::stoi(planned.name)}}, planned.subject, days, planned.duration};
        } else {
            timetable.reservations.push_back({planned.subject, planned.name, planned.day, planned.duration});
            continue;
        }
        timetable.items.push_back({work, planned.duration, days, planned.day});
    }
    return timetable;
}

} // namespace

TEST_CASE("a plan has every day of its span, with what it has and what it asks") {
    const Candidate candidate = candidate_with({10, 10});
    const Plan plan = plan_of(candidate, 12, 22);
    REQUIRE(plan.days.size() == 11);
    CHECK(plan.days.front().day == day(12));
    CHECK(plan.days.back().day == day(22));
    CHECK(plan.days[1].available == Seconds(0)); // a Sunday
    CHECK(plan.days[2].retries().size() == 1);
    CHECK(plan.days[2].planned == Seconds(720));
    CHECK(plan.days[3].planned == Seconds(720));
    CHECK_THAT(made_on(candidate, 1).fullest_share, WithinAbs(0.2, 1e-9));
    CHECK_THAT(made_on(candidate, 1).evenness, WithinAbs(288, 1e-9)); // 2 · 720² / 3600
}

TEST_CASE("what no day has the time for is on none") {
    const Plan plan = plan_of(candidate_with({100}), 0, 30);
    for (const PlannedDay& day : plan.days)
        CHECK(day.items.empty());
}

TEST_CASE("retries placed outside the span are left out") {
    const Candidate candidate = candidate_with({10, 10});
    for (const PlannedDay& day : plan_of(candidate, 0, 13).days)
        CHECK(day.items.empty());
    CHECK(plan_of(candidate, 0, 14).days.back().retries().size() == 1);
}

TEST_CASE("a retry without a day is in no plan") {
    Candidate candidate = candidate_with({10});
    candidate.exams = {{"Paper", day(1), ""}};
    for (const PlannedDay& day : plan_of(candidate, 0, 30).days)
        CHECK(day.items.empty());
}

TEST_CASE("a plan over past days is empty") {
    const Candidate candidate = candidate_with({10});
    const Plan plan = plan_of(candidate, 0, 20, 100);
    CHECK(plan.days.size() == 21);
    for (const PlannedDay& day : plan.days)
        CHECK(day.items.empty());
}

TEST_CASE("no plan is better than its bound, and days ask what their retries do") {
    std::mt19937 dice(11);
    for (int round = 0; round < 300; ++round) {
        std::vector<int> marks;
        for (int i = pick(dice, 1, 12); i > 0; --i)
            marks.push_back(pick(dice, 1, 20));
        Candidate candidate = candidate_with(marks);
        for (Seconds& time : candidate.availability.week)
            time = std::chrono::minutes(15 * pick(dice, 0, 4));
        if (pick(dice, 0, 1) == 1)
            candidate.exams = {{"Paper", day(pick(dice, 2, 25)), ""}};
        const int today = pick(dice, 0, 30);
        const int first = pick(dice, 0, 30);
        const Timetable made = made_on(candidate, today);
        const Plan plan = inkturn::plan(made, candidate, {day(first), day(first + pick(dice, 0, 30))});

        CAPTURE(round);
        CHECK(made.fullest_share_bound <= made.fullest_share + 1e-9);
        CHECK(made.evenness_bound <= made.evenness + 1e-6);
        Seconds over{0};
        for (const PlannedDay& each : plan.days) {
            Seconds sum{0};
            for (const Retry& retry : each.retries()) {
                CHECK(retry.day == each.day);
                sum += retry.allowance;
            }
            CHECK(each.planned == sum);
            over += std::max(Seconds(0), sum - each.available);
        }
        CHECK(over == Seconds(0));
    }
}

TEST_CASE("today's work says what today asks and when the next retries come") {
    const Candidate candidate = candidate_with({10, 10, 10});
    const TodaysWork before = todays_work(candidate, timetable_on(candidate, day(0)), {}, day(0));
    CHECK(before.retries.empty());
    CHECK(before.available == Seconds(3600));
    REQUIRE(before.next);
    CHECK(before.next->day == day(14));
    CHECK(before.next->count == 1);

    const TodaysWork on_the_day = todays_work(candidate, timetable_on(candidate, day(21)), {}, day(21));
    CHECK(on_the_day.retries.size() == 3);
    CHECK(on_the_day.planned == Seconds(2160));
    CHECK_FALSE(on_the_day.next.has_value());
    CHECK(on_the_day.without_day == 0);
}

TEST_CASE("today's work counts the late retries that wait for later days") {
    Candidate candidate = candidate_with({10, 10, 10});
    for (Seconds& time : candidate.availability.week)
        time = std::chrono::minutes(15); // room for one of them a day
    const TodaysWork work = todays_work(candidate, timetable_on(candidate, day(40)), {}, day(40));
    CHECK(work.retries.size() == 1);
    CHECK(work.late_after == 2);
    CHECK(todays_work(candidate, timetable_on(candidate, day(14)), {}, day(14)).late_after == 0);
}

TEST_CASE("today's work counts the retries that have no day left") {
    Candidate candidate = candidate_with({10, 10});
    candidate.exams = {{"Paper", day(1), ""}};
    const TodaysWork work = todays_work(candidate, timetable_on(candidate, day(0)), {}, day(0));
    CHECK(work.without_day == 2);
    CHECK_FALSE(work.next.has_value());
    CHECK(todays_work(candidate, timetable_on(candidate, day(1)), {}, day(1)).without_day == 0);
    CHECK(todays_work(candidate, timetable_on(candidate, day(90)), {}, day(90)).without_day == 0);
}

TEST_CASE("today's work tells what has no day after today, since its last exam is tomorrow") {
    Candidate candidate = candidate_with({10, 10});
    candidate.planned = {{WorkPurpose::relearn, "", "vectors", 1, day(20), Seconds(600)},
                         {WorkPurpose::recall, "latin", "4", 0, day(20), Seconds(45)}};
    const auto on = [&](int distance) {
        return todays_work(candidate, timetable_on(candidate, day(distance), PlacementMode::again), {},
                           day(distance));
    };
    candidate.availability.week.fill(Seconds(3600));
    candidate.availability.free_days = Days(0);
    for (int passed = 0; passed < 20; ++passed)
        candidate.availability.dates[day(passed)] = Seconds(0);
    CHECK(on(20).last_day_today == 0);
    CHECK_FALSE(on(20).is_last_day());
    candidate.exams = {{"Paper", day(21), ""}};
    REQUIRE(on(20).retries.size() == 2);
    CHECK(on(20).last_day_today == 4);
    CHECK(on(20).is_last_day());
    CHECK(on(20).facts_planned() == 1);
    candidate.exams = {{"Paper", day(21), ""}, {"Latin", day(40), "latin"}};
    CHECK(on(20).last_day_today == 3);
    CHECK_FALSE(on(20).is_last_day());
    candidate.exams = {{"Paper 1", day(21), ""}, {"Paper 2", day(30), ""}};
    CHECK(on(20).last_day_today == 0);
}

TEST_CASE("today's work has what was planned for it, not what was begun or done since") {
    Candidate candidate = candidate_with({10});
    const auto planned = [](WorkPurpose what, const std::string& name, int on) {
        return PlannedWork{what, "", name, 0, day(on), Seconds(600)};
    };
    candidate.planned = {
        planned(WorkPurpose::sit, "p-1", 1),         planned(WorkPurpose::sit, "made-up", 2),
        planned(WorkPurpose::sit, "p-2", 2),         planned(WorkPurpose::relearn, "vectors", 2),
        planned(WorkPurpose::recall, "4", 2),        planned(WorkPurpose::recall, "5", 1),
        planned(WorkPurpose::reservation, "p-2", 2), planned(WorkPurpose::recall, "6", 3),
        planned(WorkPurpose::recall, "7", 3),        planned(WorkPurpose::sit, "p-3", 3)};
    const TodaysWork work = todays_work(candidate, timetable_on(candidate, day(2)), {}, day(2));
    REQUIRE(work.other_work.size() == 3);
    CHECK(work.other_work[0].name == "p-2"); // made-up was sat
    CHECK(work.planned == Seconds(1200) + time_for_fact);
    REQUIRE(work.next);
    CHECK(work.next->day == day(3));
    CHECK(work.next->count == 2); // a sheet, a paper
    CHECK_FALSE(work.next->retries_alone);

    const auto p2 = std::make_shared<const Paper>(PaperHead{"p-2", "", "", {}, RetryBy::question},
                                                  std::vector<Part>{{"1", Marks(5), "", ""}});
    const Script begun = blank_script("K07", p2, day(2), {});
    CHECK(todays_work(candidate, timetable_on(candidate, day(2)), {begun}, day(2)).other_work.size() == 2);
}

TEST_CASE("both halves of a topic are one piece of what comes next") {
    Candidate candidate = candidate_with({10});
    candidate.sittings.clear();
    candidate.planned = {{WorkPurpose::relearn, "", "vectors", 1, day(5), Seconds(1800)},
                         {WorkPurpose::relearn, "", "vectors", 2, day(5), Seconds(1800)},
                         {WorkPurpose::relearn, "", "series", 1, day(5), Seconds(1800)}};
    const TodaysWork work = todays_work(candidate, timetable_on(candidate, day(2)), {}, day(2));
    REQUIRE(work.next);
    CHECK(work.next->count == 2);
}

TEST_CASE("an exam's day has no time, but for work that has no other day") {
    Candidate candidate = candidate_with({10});
    candidate.exams = {{"Paper", day(18), ""}, {"Mock", day(5), "", true}};
    const Plan plan = plan_of(candidate, 0, 20);
    CHECK(plan.days[18].exam);
    CHECK(plan.days[18].available == Seconds(0));
    CHECK(plan.days[5].exam);
    CHECK_FALSE(plan.days[4].exam);
    CHECK(plan.days[4].available == Seconds(3600));
}

TEST_CASE("what a span of days asks is the retries that fall in it, and their time") {
    const Candidate candidate = candidate_with({10, 5, 10});
    const std::vector<Retry> retries = open_retries(candidate, day(0));
    REQUIRE(retries.size() == 3);
    Seconds all{0};
    for (const Retry& retry : retries)
        all += retry.allowance;
    const SpanWork whole = work_within(retries, {day(0), day(30)});
    CHECK(whole.retries.size() == 3);
    CHECK(whole.planned == Seconds(1800));
    CHECK(whole.planned == all);
    const Day first = *retries[0].day;
    const SpanWork one = work_within(retries, {first, first});
    CHECK(one.retries.size() == 1);
    CHECK(one.planned == retries[0].allowance);
    CHECK(work_within(retries, {day(0), first - Days{1}}).planned == Seconds(0));
}

TEST_CASE(
    "first comes the clock, then what waits to be marked, the late, a topic, a paper, what closes first") {
    using Why = FirstToDo::Why;
    TodaysWork work;
    CHECK_FALSE(first_to_do(work, {}));
    const auto planned = [](WorkPurpose what) {
        return PlannedWork{what, "pure", "x", 0, day(0), Seconds(600)};
    };
    const auto is = [&](Why why, std::size_t which, const std::vector<Script>& scripts = {}) {
        const auto first = first_to_do(work, scripts);
        return first && first->why == why && first->which == which;
    };
    work.other_work = {planned(WorkPurpose::recall)};
    CHECK(is(Why::planned, 0));
    Retry retry;
    retry.window = Window{day(-3), day(4), false};
    work.retries = {retry, retry};
    CHECK(is(Why::closes_first, 0));
    work.retries[1].window->closes = day(3);
    CHECK(is(Why::closes_first, 1));
    work.retries[0].window.reset();
    CHECK(is(Why::closes_first, 1));
    work.other_work.push_back(planned(WorkPurpose::sit));
    CHECK(is(Why::needs_time, 1));
    work.other_work.push_back(planned(WorkPurpose::relearn));
    CHECK(is(Why::before_retries, 2));
    work.retries[1].late = true;
    CHECK(is(Why::late, 1));

    const auto paper = paper_of("p", {5}, "");
    Script handed_in = blank_script("me", paper, day(0), {});
    handed_in.events = {{ClockEventKind::start, Moment{}}, {ClockEventKind::hand_in, Moment{}}};
    Script running = blank_script("me", paper, day(0), {});
    running.events = {{ClockEventKind::start, Moment{}}};
    CHECK(is(Why::to_mark, 0, {handed_in}));
    CHECK(is(Why::clock_runs, 1, {handed_in, running}));
}

TEST_CASE("tonight a retry can wait unless today is the last day of its window") {
    const Candidate candidate = candidate_with({10, 10});
    const OpenTonight early = open_tonight(made_on(candidate, 14));
    CHECK(early.last_day.empty());
    CHECK_FALSE(early.can_wait.empty());
    const OpenTonight last = open_tonight(made_on(candidate, 21));
    CHECK(last.can_wait.empty());
    CHECK(last.last_day.size() == 2);
    CHECK(open_tonight(made_on(candidate, 0)).can_wait.empty());
}

TEST_CASE("tonight a topic can wait until the eve of its retries' exam") {
    const auto waits = [](std::optional<Day> exam) {
        const TopicToRelearn topic{"pure", "vectors", Marks(3), {day(0), day(0)}, 1, exam};
        Timetable made{};
        made.today = day(0);
        made.items = {{topic, TopicToRelearn::time_of_piece, DaySpan{day(0), day(0)}, day(0)}};
        return open_tonight(made).last_day.empty();
    };
    CHECK(waits({}));
    CHECK(waits(day(2)));
    CHECK_FALSE(waits(day(1)));
}

TEST_CASE("a day with a mock alone is a mock's, with an exam an exam's") {
    Candidate candidate = candidate_with({10});
    candidate.exams = {{"Mock", day(2), "", true},
                       {"Paper", day(3), ""},
                       {"Mock", day(3), "", true},
                       {"Mock", day(4), "", true},
                       {"Paper", day(4), ""}};
    const Plan plan = plan_of(candidate, 1, 4);
    const auto is = [&](std::size_t i) { return std::pair(plan.days.at(i).exam, plan.days.at(i).mock); };
    CHECK(is(0) == std::pair(false, false));
    CHECK(is(1) == std::pair(true, true));
    CHECK(is(2) == std::pair(true, false));
    CHECK(is(3) == std::pair(true, false));
}
