#include "inkturn/plan/later_turns.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "inkturn/plan/remedy.hpp"

#include <map>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

int distance(Day on) {
    return static_cast<int>((on - day(0)).count());
}

/// "turn:seconds" of each.
std::string times_of(const std::vector<LaterRetry>& later) {
    std::string text;
    for (const LaterRetry& retry : later)
        text +=
            (text.empty() ? "" : " ") + std::to_string(retry.turn) + ":" + std::to_string(retry.work.count());
    return text;
}

/// Of an hour on these days: the spans of each turn.
std::string spans_after(DaySpan days, std::optional<Day> exam) {
    std::string text;
    for (const LaterRetry& retry : later_retries({1, Seconds(3600), 1, days, exam}, {})) {
        for (const DaySpan span : retry.spans)
            text += std::to_string(distance(span.first)) + ".." + std::to_string(distance(span.last)) + " ";
        text += "/ ";
    }
    return text;
}

/// Two of five questions missed on the Monday, 12 minutes each, and an exam.
Candidate with_two_misses(int exam) {
    Candidate missed = candidate();
    missed.exams = {{"Pure", day(exam), "pure"}};
    sit(missed, paper("pure-1", "pure"), day(0), 3);
    return missed;
}

TimetableRequest without_topics() {
    TimetableRequest none = request({});
    none.weak = std::make_shared<const std::vector<WeakTopic>>();
    return none;
}

std::map<int, Seconds> reserved_by_turn(const Timetable& made) {
    std::map<int, Seconds> sums;
    for (const Reservation& room : made.reservations)
        sums[room.turn] += room.duration;
    return sums;
}

std::vector<std::optional<Day>> days_of(const Timetable& made) {
    std::vector<std::optional<Day>> days;
    for (const WorkItem& item : made.items)
        days.push_back(item.day);
    return days;
}

} // namespace

TEST_CASE(
    "what is missed once more is foreseen turn by turn: by the usual three of five two thirds as much") {
    // The worked example of docs/method.md: of a paper of ten questions 1890 s in four pieces.
    const DaySpan days{day(14), day(21)};
    CHECK(times_of(later_retries({1, Seconds(1890), 4, days}, {})) == "2:378 2:378 3:302 4:121"); // then 48 s
    // Ten re-attempts at turn 1 of which two were got: (2 + 3) of (10 + 5).
    CHECK(times_of(later_retries({1, Seconds(1890), 4, days}, {{1, 10, 2}})) ==
          "2:420 2:420 2:420 3:504 4:202 5:81");
    // A retry at its third turn: by what was got there, and at the turns after it.
    CHECK(times_of(later_retries({3, Seconds(1000), 1, days}, {{1, 10, 2}, {3, 5, 2}})) ==
          "4:500 5:200 6:80");
    CHECK(times_of(later_retries({1, Seconds(149), 1, days}, {})) == "2:60");
    CHECK(later_retries({1, Seconds(148), 1, days}, {}).empty()); // 59 s
    CHECK(times_of(later_retries({1, Seconds(100'000), 1, days}, {})).find("6:") == std::string::npos);
}

TEST_CASE("a window of a later turn counts from all days of the turn before, and ends before the exam") {
    CHECK(spans_after({day(14), day(21)}, day(60)) == "28..42 43..59 / 42..59 / 52..59 / 54..59 / ");
    CHECK(spans_after({day(0), day(0)}, day(60)) == "14..21 22..59 / 28..42 43..59 / 42..59 / 52..59 / ");
    CHECK(spans_after({day(0), day(30)}, day(200)) ==
          "14..51 52..107 / 28..72 73..128 / 42..93 94..149 / 56..114 115..170 / "); // eight weeks on
    CHECK(spans_after({day(0), day(0)}, day(16)) == "8..15 / 10..15 / 11..15 / 12..15 / ");
    CHECK(spans_after({day(5), day(15)}, day(16)) == "8..15 / 10..15 / 11..15 / 12..15 / ");
    CHECK(spans_after({day(0), day(0)}, day(2)) == "1..1 / "); // the exam leaves no day after that
    CHECK(spans_after({day(0), day(0)}, day(1)).empty());
    CHECK(later_retries({1, Seconds(3600), 1, {latest_day, latest_day}}, {}).empty());
}

TEST_CASE("the later turns of open retries have room two to three weeks after their days, and move none") {
    Candidate missed = with_two_misses(100);
    TimetableRequest asked = without_topics();
    const Timetable made = timetable(missed, asked, day(1));
    // 1440 s at turn 1; then two fifths of it, and of that: 576, 230, 92 s.
    CHECK(made.expected == Seconds(0));
    CHECK(made.expected_again == Seconds(576 + 230 + 92));
    CHECK(made.again_without_room == Seconds(0));
    CHECK(made.fit == PlanFit::fits);
    CHECK(reserved_by_turn(made) ==
          std::map<int, Seconds>{{2, Seconds(576)}, {3, Seconds(230)}, {4, Seconds(92)}});
    for (const Reservation& room : made.reservations) {
        CHECK(room.paper == "pure-1");
        CHECK(room.subject == "pure");
        CHECK(room.day >= *made.items.front().day + Days{14 * (room.turn - 1)});
        CHECK(room.day <= *made.items.back().day + Days{21 * (room.turn - 1)});
    }
    asked.turns = TurnsReserved::first;
    const Timetable first = timetable(missed, asked, day(1));
    CHECK(days_of(first) == days_of(made));
    CHECK(first.reservations.empty());
    CHECK(first.expected_again == Seconds(0));
}

TEST_CASE("what comes back goes by the candidate's own re-attempts at that turn too") {
    Candidate missed = with_two_misses(100);
    for (const char* question : {"4", "5"})
        missed.sittings[0].reattempts.push_back({question, 1, day(14), {full_marks(Marks(0))}});
    missed.sittings[0].reattempts[0].parts = {PartMarks(MarksByPhase{Marks(3), {}, {}}, Marks(10), {})};
    missed.sittings[0].reattempts[1].parts = missed.sittings[0].reattempts[0].parts;
    const Timetable made = timetable(missed, without_topics(), day(15));
    CHECK(made.reattempts == 2);
    // Both are at turn 2, of which none is on file: two fifths at turns 3, 4 and 5.
    CHECK(reserved_by_turn(made) ==
          std::map<int, Seconds>{{3, Seconds(576)}, {4, Seconds(230)}, {5, Seconds(92)}});
    sit(missed, paper("pure-2", "pure"), day(15), 4); // 720 s at turn 1: four of seven come back
    CHECK(reserved_by_turn(timetable(missed, without_topics(), day(15)))[2] == Seconds(411));
}

TEST_CASE("papers to sit and open retries reserve room for later turns alike") {
    Candidate missed = with_two_misses(100);
    TimetableRequest asked = without_topics();
    asked.papers = papers(1, "pure");
    asked.papers.erase(asked.papers.begin()); // it was sat
    asked.papers.push_back(paper("pure-2", "pure"));
    asked.share = {0.4, ShareOf::candidate};
    const Timetable made = timetable(missed, asked, day(1));
    CHECK(made.expected == Seconds(1440));
    CHECK(made.expected_again == Seconds(2 * (576 + 230 + 92)));
    std::map<std::string, Seconds> of_paper;
    for (const Reservation& room : made.reservations)
        of_paper[room.paper] += room.duration;
    CHECK(of_paper == std::map<std::string, Seconds>{{"pure-1", Seconds(898)}, {"pure-2", Seconds(2338)}});
}

TEST_CASE("a plan without room for what is missed once more was not found, though all work has its day") {
    Candidate missed = with_two_misses(40);
    missed.availability.week.fill(Seconds(0));
    missed.availability.dates[day(15)] = Seconds(1440);
    missed.availability.dates[day(30)] = Seconds(600); // 576 of it
    const Timetable made = timetable(missed, without_topics(), day(1));
    CHECK(made.not_placed_time == Seconds(0));
    CHECK(made.again_without_room == Seconds(230 + 92));
    CHECK(made.fit == PlanFit::not_found);
    CHECK(made.short_by == Seconds(0)); // not proven
    CHECK(made.fullest_share == 1);
    CHECK_FALSE(has_plan(missed, without_topics(), day(1)));
    TimetableRequest of_work = without_topics();
    of_work.turns = TurnsReserved::first;
    CHECK(has_plan(missed, of_work, day(1)));
    CHECK_FALSE(remedies(missed, without_topics(), day(1)).empty());

    missed.availability.dates[day(36)] = Seconds(322);
    CHECK(timetable(missed, without_topics(), day(1)).fit == PlanFit::fits);
    CHECK(has_plan(missed, without_topics(), day(1)));
}

TEST_CASE("no kept day is given up for what is missed once more, and what would help makes room for it") {
    Candidate missed = with_two_misses(40);
    missed.availability.week.fill(Seconds(0));
    for (const int on : {15, 18, 30})
        missed.availability.dates[day(on)] = Seconds(1440);
    keep(missed, timetable(missed, without_topics(), day(1)));
    const auto before = days_of(timetable(missed, without_topics(), day(1)));
    missed.availability.dates[day(30)] = Seconds(0);
    const Timetable made = timetable(missed, without_topics(), day(1));
    CHECK(days_of(made) == before);
    CHECK(made.fit == PlanFit::not_found);
    CHECK(made.again_without_room == Seconds(576 + 230 + 92));
    const auto found = remedies(missed, without_topics(), day(1));
    REQUIRE_FALSE(found.empty());
    const auto& longer = std::get<LongerDay>(found.back()); // no retry is dropped for it
    missed.availability.week[longer.weekday] = longer.in_all;
    CHECK(timetable(missed, without_topics(), day(1)).fit == PlanFit::fits);
}

TEST_CASE("a day that late work takes more than half of has no room for what comes back") {
    const auto rooms_beside = [](int minutes_late) {
        Timetable made;
        made.today = day(0);
        Candidate owner = candidate();
        owner.availability.week.fill(Seconds(3600));
        owner.availability.free_days = Days(0);
        owner.availability.dates[day(2)] = Seconds(0);
        Retry retry;
        retry.id = {SittingId{1}, "1"};
        retry.paper = paper("p", "pure", 1);
        retry.allowance = std::chrono::minutes{minutes_late};
        retry.window = Window{day(-26), day(-19)};
        retry.late = true;
        retry.exam = day(3);
        retry.day = day(1);
        made.items.push_back({retry, retry.allowance, DaySpan{day(0), day(2)}, day(1)});
        retry.id.sitting = SittingId{2};
        retry.day = day(0);
        retry.late = false;
        made.items.push_back({retry, retry.allowance, DaySpan{day(0), day(2)}, day(0)});
        reserve_later_turns(owner, made);
        return made.reservations.size();
    };
    CHECK(rooms_beside(30) == 1); // on day 1
    CHECK(rooms_beside(31) == 0);
}
