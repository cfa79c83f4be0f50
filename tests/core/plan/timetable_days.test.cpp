#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/timetable.hpp"

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

int distance(Day on) {
    return static_cast<int>((on - day(0)).count());
}

/// The days of a kind of work from the Monday on, `-` where it has none.
std::string days_of(const Timetable& made, WorkKind kind) {
    std::string text;
    for (const WorkItem& item : made.items)
        if (item.kind() == kind)
            text += (text.empty() ? "" : " ") + (item.day ? std::to_string(distance(*item.day)) : "-");
    return text;
}

const WorkItem& first_of(const Timetable& made, WorkKind kind) {
    for (const WorkItem& item : made.items)
        if (item.kind() == kind)
            return item;
    throw std::runtime_error("there is none of this kind");
}

/// Question 5, integration, went for method on the Monday: retried from day 14 to day 21.
Candidate with_a_miss() {
    Candidate missed = candidate();
    sit(missed, paper("pure-1", "pure"), day(0), 4);
    return missed;
}

} // namespace

TEST_CASE("a topic may be relearned on any day before its retry, which may take any day of its window") {
    const Candidate candidate = with_a_miss();
    const auto from = [&](int today) {
        const Timetable made = timetable(candidate, request({}), day(today));
        CHECK(distance(first_of(made, WorkKind::retry).possible_days->last) == 21);
        return std::to_string(distance(first_of(made, WorkKind::relearn).possible_days->last)) + " " +
               std::to_string(distance(first_of(made, WorkKind::retry).possible_days->first));
    };
    CHECK(from(1) == "20 14");
    CHECK(from(16) == "20 16");
    CHECK(from(19) == "20 19");
}

TEST_CASE("a topic whose day passed is told by its name") {
    Candidate candidate = with_a_miss();
    const Timetable first = timetable(candidate, request({}), day(1));
    keep(candidate, first);
    const Day after = *first_of(first, WorkKind::relearn).day + Days{1};
    const auto changed = changes(candidate, timetable(candidate, request({}), after), after);
    REQUIRE_FALSE(changed.empty());
    CHECK(changed.front().kind == WorkKind::relearn);
    CHECK(changed.front().what == "integration");
}

TEST_CASE("topics and retries keep the days on file while these are possible") {
    Candidate candidate = with_a_miss();
    candidate.planned = {{WorkPurpose::relearn, "pure", "integration", 1, day(3), Seconds(1800)},
                         {WorkPurpose::relearn, "pure", "integration", 2, day(4), Seconds(1800)}};
    candidate.placements = {{SittingId{1}, "5", day(21)}};
    const Timetable again = timetable(candidate, request({}), day(1));
    CHECK(days_of(again, WorkKind::relearn) == "3 4");
    CHECK(days_of(again, WorkKind::retry) == "21");
    CHECK(days_of(timetable(candidate, request({}), day(3)), WorkKind::relearn) == "3 4");
    CHECK(days_of(timetable(candidate, request({}, PlacementMode::again), day(1)), WorkKind::relearn) !=
          "3 4");
    CHECK(days_of(timetable(candidate, request({}), day(4)), WorkKind::relearn) != "3 4");
    candidate.availability.dates[day(3)] = Seconds(0);
    const std::string moved = days_of(timetable(candidate, request({}), day(1)), WorkKind::relearn);
    CHECK(moved.find('3') == std::string::npos);
    CHECK(moved.find('4') != std::string::npos);
}

TEST_CASE("facts keep the day on file, and are asked there together") {
    Candidate candidate = ::candidate();
    TimetableRequest asked_for = request({});
    for (int id = 1; id <= 3; ++id)
        asked_for.facts.push_back({FactId{id}, "prompt " + std::to_string(id), "answer", "", "pure"});
    candidate.planned = {{WorkPurpose::recall, "pure", "1", 0, day(4), time_for_fact},
                         {WorkPurpose::recall, "pure", "3", 0, day(4), time_for_fact}};
    const Timetable made = timetable(candidate, asked_for, day(0));
    int on_the_day = 0;
    for (const WorkItem& item : made.items)
        if (const auto* group = std::get_if<RecallGroup>(&item.work); group && item.day == day(4))
            on_the_day += static_cast<int>(group->facts.size());
    CHECK(on_the_day >= 2);
    candidate.availability.dates[day(4)] = Seconds(0);
    for (const WorkItem& item : timetable(candidate, asked_for, day(0)).items)
        CHECK(item.day != day(4));
}

TEST_CASE("what has no day though its exam leaves some is missing from the sum, and is said to be") {
    Candidate candidate = with_a_miss();
    candidate.availability.week.fill(Seconds(0));
    const Timetable made = timetable(candidate, request({}), day(1));
    Seconds without{0};
    for (const WorkItem& item : made.items) {
        CHECK_FALSE(item.day.has_value());
        without += item.duration;
    }
    CHECK(without == Seconds(2 * 1800 + 720));
    CHECK(made.short_by == without);
    candidate.exams = {{"Pure", day(1), "pure"}}; // no day is left for the retry, and that is nobody's fault
    CHECK(timetable(candidate, request({}), day(1)).short_by == Seconds(0));
}

TEST_CASE("room is reserved in the window of its paper's day, and shown on its days") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(60), "pure"}};
    TimetableRequest request = ::request(papers(1, "pure"));
    request.turns = TurnsReserved::first;
    const Timetable made = timetable(candidate, request, day(0));
    REQUIRE_FALSE(made.reservations.empty());
    const Day sat = *days_of_papers(made).front();
    for (const Reservation& room : made.reservations) {
        CHECK(room.day >= sat + Days{14});
        CHECK(room.day <= sat + Days{21});
        CHECK(room.paper == "pure-1");
    }
    Seconds reserved{0};
    for (const PlannedDay& planned : plan(made, candidate, {day(0), day(59)}).days) {
        CHECK(planned.reserved >= Seconds(0));
        reserved += planned.reserved;
    }
    CHECK(reserved == made.expected);
}

TEST_CASE("what is kept on file says what, of which subject and name, which piece, when and how long") {
    Candidate candidate = with_a_miss();
    candidate.exams = {{"Pure", day(60), "pure"}};
    TimetableRequest asked_for = request({paper("pure-2", "pure", 1)});
    asked_for.facts = {{FactId{7}, "prompt", "answer", "", "pure"}};
    candidate.wishes.papers["pure"] = {2, day(1)};
    std::map<WorkPurpose, std::string> on_file;
    for (const PlannedWork& work : planned_work(timetable(candidate, asked_for, day(1)))) {
        CHECK(work.subject == "pure");
        on_file[work.what] +=
            work.name + "/" + std::to_string(work.number) + "/" + std::to_string(work.duration.count()) + " ";
    }
    CHECK(on_file[WorkPurpose::sit] == "pure-2/0/1080 /2/1080 ");
    CHECK(on_file[WorkPurpose::relearn] == "integration/1/1800 integration/2/1800 ");
    CHECK(on_file[WorkPurpose::recall] == "7/0/45 ");
    CHECK(on_file[WorkPurpose::reservation] == "pure-2/0/252 /0/252 ");
}

TEST_CASE("a topic may be relearned on the very day after the last one before its retry") {
    Candidate candidate = ::candidate();
    candidate.availability.week.fill(Seconds(0));
    sit(candidate, paper("p1", "pure", 1), day(0), 0);
    candidate.exams = {{"Pure", day(60), "pure"}};
    const auto topics = topics_that_may_be_relearned(candidate, retries_to_place(candidate, day(1)), day(1));
    REQUIRE_FALSE(topics.empty());
    const Day next = topics.front().possible_days.last + Days{1};
    candidate.availability.dates[next] = Seconds(7200);
    int pieces = 0;
    for (const WorkItem& item : timetable(candidate, request({}), day(1)).items)
        if (item.kind() == WorkKind::relearn) {
            CHECK(item.day == next);
            ++pieces;
        }
    CHECK(pieces == TopicToRelearn::pieces);
}

TEST_CASE("an hour that moved as one is told once, half an hour as a half") {
    Candidate candidate = ::candidate();
    candidate.availability.week.fill(Seconds(3600));
    sit(candidate, paper("p1", "pure", 1), day(0), 0);
    const Timetable first = timetable(candidate, request({}), day(1));
    keep(candidate, first);
    std::vector<Day> before;
    for (const PlannedWork& one : candidate.planned)
        if (one.what == WorkPurpose::relearn)
            before.push_back(one.day);
    REQUIRE(before.size() == 2);
    REQUIRE(before[0] == before[1]);
    const Timetable later = timetable(candidate, request({}), before[0] + Days{1});
    std::vector<std::string> told;
    for (const PlanChange& change : changes(candidate, later, before[0] + Days{1}))
        if (change.kind == WorkKind::relearn)
            told.push_back(change.what);
    CHECK(told == std::vector<std::string>{"integration"});
}
