#include "inkturn/plan/place.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/plan/roll.hpp"
#include "inkturn/plan/time_ahead.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using MaybeDays = std::vector<std::optional<Day>>;

Seconds minutes(int count) {
    return std::chrono::minutes(count);
}

/// The same time on each day.
TimeAhead days_of(int each, int count) {
    return {day(0), std::vector<DayTime>(static_cast<std::size_t>(count), DayTime{minutes(each), {}, false})};
}

/// Work that may be done from one day to another.
WorkPiece piece(int work, int first, int last) {
    return {minutes(work), {{day(first), day(last)}}};
}

WorkPiece kept(WorkPiece piece, int on) {
    piece.kept_day = day(on);
    return piece;
}

WorkPiece late(int work, int closed, int last) {
    WorkPiece late = piece(work, 0, last);
    late.late = Lateness{day(closed), day(closed - 21), 0};
    return late;
}

WorkPiece paper(int work, int first, int last) {
    WorkPiece paper = piece(work, first, last);
    paper.paper = true;
    return paper;
}

/// As text, a day a piece: "3 - 0".
std::string text_of(const WorkPlan& plan) {
    std::string text;
    for (const auto& on : plan.days)
        text += (text.empty() ? "" : " ") + (on ? std::to_string((*on - day(0)).count()) : std::string("-"));
    return text;
}

} // namespace

TEST_CASE("no day is given more than it has, with what was done on it; what fits no day is not placed") {
    TimeAhead time = days_of(60, 2);
    time.days[0].done = minutes(40);
    const WorkPlan plan = place_work(time, {piece(30, 0, 1), piece(30, 0, 1), piece(30, 0, 1)});
    CHECK(text_of(plan) == "1 1 -");
    CHECK(plan.weight.without_day == minutes(30));
    CHECK(plan.fit == PlanFit::too_little_time);
    CHECK(plan.short_by == minutes(30)); // ten minutes are left, but no question is split
}

TEST_CASE("a kept day stays; where time shrinks what closes latest leaves first") {
    TimeAhead time = days_of(60, 10);
    std::vector<WorkPiece> pieces{kept(piece(20, 0, 9), 4), kept(piece(20, 0, 5), 4),
                                  kept(piece(20, 0, 7), 4)};
    CHECK(text_of(place_work(time, pieces)) == "4 4 4");
    time.days[4].available = minutes(45);
    CHECK(text_of(place_work(time, pieces)) == "0 4 4");
    time.days[4].available = minutes(0);
    CHECK(text_of(place_work(time, pieces)) == "0 1 2");
}

TEST_CASE("a kept day is given up where it has passed, is not allowed or is an exam's") {
    TimeAhead time = days_of(60, 6);
    time.days[3].exam = true;
    CHECK(text_of(place_work(time, {kept(piece(20, 2, 5), -1)})) == "2");
    CHECK(text_of(place_work(time, {kept(piece(20, 2, 5), 0)})) == "2");
    CHECK(text_of(place_work(time, {kept(piece(20, 3, 5), 3)})) == "4");
    WorkPiece not_on_four = kept(piece(20, 2, 5), 4);
    not_on_four.never_on = {day(4)};
    CHECK(text_of(place_work(time, {not_on_four})) == "2");
}

TEST_CASE("a day that was asked for stands, outside the window too, before the kept ones") {
    WorkPiece asked = piece(50, 5, 8);
    asked.wish = day(1);
    const WorkPlan plan = place_work(days_of(60, 10), {kept(piece(20, 0, 9), 1), asked});
    CHECK(text_of(plan) == "0 1");
    CHECK(plan.weight.outside == minutes(50));
    asked.wish = day(-1);
    CHECK(text_of(place_work(days_of(60, 10), {asked})) == "5");
}

TEST_CASE("late work takes the earliest days with room, one by one in the order of closing") {
    const TimeAhead time = days_of(60, 10);
    CHECK(text_of(place_work(time, {late(30, -1, 9), late(30, -9, 9), late(40, -5, 9)})) == "0 0 1");
    CHECK(text_of(place_work(time, {late(20, -1, 9), late(40, -9, 9)})) == "0 0");
}

TEST_CASE("a late retry waits for a topic that has its day to be chosen too") {
    const TimeAhead time = days_of(60, 20);
    WorkPiece half = piece(30, 0, 6);
    WorkPiece other = half;
    other.half_of = 0;
    WorkPiece retry = late(20, -1, 19);
    retry.after = {0, 1};
    const WorkPlan plan = place_work(time, {half, other, retry});
    CHECK(plan.days[0] == plan.days[1]);
    CHECK(plan.days[2] > plan.days[1]);
    CHECK(plan.days[2] <= day(7));
}

TEST_CASE("a retry comes before its window where its window and the days after it have no room") {
    const Window window{day(4), day(6)};
    const auto spans_text = [&](int today) {
        std::string text;
        for (const DaySpan span :
             retry_spans(window, day(8), day(0), {day(today), days_of(60, 8 - today).days}))
            text += std::to_string((span.first - day(0)).count()) + "-" +
                    std::to_string((span.last - day(0)).count()) + " ";
        return text;
    };
    CHECK(spans_text(0) == "4-6 7-7 1-3 ");
    CHECK(spans_text(2) == "4-6 7-7 2-3 ");
    CHECK(spans_text(5) == "5-6 7-7 ");
    CHECK(spans_text(7) == "7-7 ");
}

TEST_CASE("late work takes at most half of the time of a day that has other work") {
    const TimeAhead time = days_of(60, 10);
    CHECK(text_of(place_work(time, {kept(piece(10, 0, 9), 0), late(30, -1, 9)})) == "0 0");
    CHECK(text_of(place_work(time, {kept(piece(10, 0, 9), 0), late(31, -1, 9)})) == "0 1");
    const WorkPlan plan = place_work(time, {late(31, -1, 9), piece(10, 0, 1)});
    CHECK(text_of(plan) == "0 1"); // other work that may go elsewhere leaves it the day
    std::vector<WorkPiece> everywhere{late(31, -1, 9)};
    for (int i = 0; i < 10; ++i)
        everywhere.push_back(kept(piece(10, 0, 9), i));
    CHECK(place_work(time, everywhere).days[0] == day(0)); // rather than no day at all
}

TEST_CASE("late work does not push other work out of its window") {
    const TimeAhead time = days_of(60, 10);
    WorkPiece today = piece(50, 0, 0);
    today.spans.push_back({day(1), day(9)});
    CHECK(text_of(place_work(time, {late(30, -1, 9), today})) == "1 0");
}

TEST_CASE("a late retry waits for its topic, a week at most") {
    const TimeAhead time = days_of(60, 20);
    WorkPiece retry = late(20, -1, 19);
    retry.after = {0};
    CHECK(text_of(place_work(time, {kept(piece(30, 0, 19), 4), retry})) == "4 5");
    CHECK(text_of(place_work(time, {kept(piece(30, 0, 19), 15), retry})) == "15 7");
}

TEST_CASE("a topic comes before its retry where both fit") {
    const TimeAhead time = days_of(60, 10);
    WorkPiece retry = piece(20, 3, 6);
    retry.after = {0};
    CHECK(text_of(place_work(time, {piece(60, 0, 9), retry})) == "0 3");
    CHECK(text_of(place_work(time, {piece(60, 4, 9), retry})) == "4 5");
    CHECK(text_of(place_work(time, {piece(60, 8, 9), retry})) == "8 3");
}

TEST_CASE("an hour stays in one piece, in halves only where it must") {
    const auto hour = [](int last) {
        WorkPiece second = piece(30, 0, last);
        second.half_of = 0;
        return std::vector<WorkPiece>{piece(30, 0, last), second};
    };
    CHECK(text_of(place_work(days_of(60, 10), hour(9))) == "0 0");
    CHECK(text_of(place_work(days_of(45, 10), hour(9))) == "0 1");
}

TEST_CASE("work comes to the day of an exam only where no other day is left") {
    TimeAhead time = days_of(60, 3);
    time.days[1].exam = true;
    WorkPiece narrow = piece(30, 1, 1);
    narrow.spans.push_back({day(2), day(2)});
    CHECK(text_of(place_work(time, {narrow})) == "2");
    const WorkPlan plan = place_work(time, {piece(30, 1, 1)});
    CHECK(text_of(plan) == "1");
    CHECK(plan.weight.on_exam_days == minutes(30));
}

TEST_CASE("there is one paper a day at most") {
    CHECK(text_of(place_work(days_of(200, 3), {paper(60, 0, 2), paper(60, 0, 2), paper(60, 0, 1)})) ==
          "0 2 1");
}

TEST_CASE("a paper brings retries, for which room is reserved in their window; they yield to work") {
    TimeAhead time = days_of(60, 40);
    WorkPiece one = paper(60, 0, 0);
    one.expected = {{minutes(20), minutes(20)}, std::nullopt};
    const WorkPlan plan = place_work(time, {one});
    REQUIRE(plan.reserved.size() == 2);
    CHECK(plan.reserved[0].day == day(14));
    CHECK(plan.reserved[1].day == day(15));

    for (std::size_t t = 14; t < time.days.size(); ++t)
        time.days[t].available = t == 14 ? minutes(30) : minutes(0);
    const WorkPlan full = place_work(time, {one, piece(25, 14, 14)});
    CHECK(text_of(full) == "0 14");
    CHECK(full.weight.unreserved == minutes(40));
    CHECK(full.fit == PlanFit::too_little_time);
}

TEST_CASE("where a window is off, the nearest day after it is used, then the nearest before it") {
    TimeAhead time = days_of(60, 40);
    for (std::size_t t = 14; t <= 21; ++t)
        time.days[t].available = Seconds(0);
    const auto placed = [&](std::optional<int> exam) {
        const Day attempt = day(0);
        WindowByExams by{exam ? std::optional<Day>(day(*exam)) : std::nullopt, std::nullopt, false};
        by.window = retry_window(attempt, by.exam);
        return text_of(place_work(time, {retry_piece(minutes(20), by, attempt, 1, time)}));
    };
    CHECK(placed({}) == "22");
    CHECK(placed(30) == "22");
    CHECK(placed(22) == "13");
    time.days[22].available = minutes(10);
    CHECK(placed(30) == "23");
}

TEST_CASE("five papers on four days of two hours and one of an hour: the short one takes the short day") {
    // Marks 30 and four times 44, with half as much again to mark: 54:00 and 1:19:12.
    const Day today{date::year{2026} / date::November / 25};
    const Day exam{date::year{2027} / date::January / 20};
    Availability availability;
    availability.week.fill(Seconds(0));
    availability.free_days = Days{0};
    for (const Day on : {today + Days{1}, today + Days{8}, today + Days{15}, today + Days{22}})
        availability.dates[on] = minutes(120);
    availability.dates[Day{date::year{2026} / date::December / 22}] = minutes(60);
    const TimeAhead time = time_ahead(availability, {}, Seconds(0), {today, exam - Days{1}});
    std::vector<WorkPiece> papers;
    for (int i = 0; i < 5; ++i) {
        WorkPiece one{Seconds(i == 0 ? 3240 : 4752), {}};
        one.spans = {{today, exam - Days{22}}, {exam - Days{21}, exam - Days{1}}};
        one.near = DaySpan{today + Days{7 * i}, today + Days{7 * i + 6}};
        one.paper = true;
        if (i > 0)
            one.after = {papers.size() - 1};
        papers.push_back(one);
    }
    const WorkPlan plan = place_work(time, papers);
    CHECK(plan.fit == PlanFit::fits);
    CHECK(plan.days[0] == Day{date::year{2026} / date::December / 22});
    CHECK(plan.days[1] == today + Days{1});
    CHECK(plan.days[4] == today + Days{22});
}

TEST_CASE("a plan fits where place_work() finds one; what is short is proven without it") {
    const std::vector<WorkPiece> pieces{piece(50, 0, 1), piece(50, 0, 1), piece(50, 0, 1)};
    const auto fits_with = [&](int more) {
        return place_work(days_of(60 + more, 2), pieces).fit == PlanFit::fits;
    };
    CHECK(proven_short(days_of(60, 2), pieces) == minutes(30));
    CHECK_FALSE(fits_with(0));
    CHECK_FALSE(fits_with(39));
    CHECK(fits_with(40)); // two of them on one day
}

TEST_CASE("an exam a day later does not heap the retries up: 19 or 20 January after a sitting on the 5th") {
    const Day attempt{date::year{2026} / date::January / 5};
    for (const int exam_on : {19, 20}) {
        const Exam exam{"E", Day{date::year{2026} / date::January / exam_on}, "chem"};
        const TimeAhead time = time_ahead({}, {exam}, Seconds(0), {attempt, exam.day});
        std::vector<WorkPiece> retries;
        int number = 0;
        for (const int marks : {6, 7, 8, 9, 5})
            retries.push_back(retry_piece(Seconds(72 * marks),
                                          window_by_exams({exam}, "chem", attempt, attempt), attempt,
                                          ++number, time));
        const WorkPlan plan = place_work(time, retries);
        CHECK(plan.fit == PlanFit::fits);
        CHECK(std::set<std::optional<Day>>(plan.days.begin(), plan.days.end()).size() == 5);
        for (const auto& on : plan.days) {
            CHECK(*on >= exam.day - Days{8});
            CHECK(*on < exam.day);
        }
    }
}

TEST_CASE("overdue topics take the next days with room, not all today") {
    const TimeAhead time = days_of(60, 49);
    std::vector<WorkPiece> pieces;
    for (int topic = 0; topic < 3; ++topic)
        for (int half = 0; half < 2; ++half) {
            pieces.push_back(late(30, 0, 48));
            pieces.back().late->number = 2 * topic + half;
        }
    CHECK(text_of(place_work(time, pieces)) == "0 0 1 1 2 2");
}

TEST_CASE("a late retry that is not done keeps to the earliest day; it does not wander") {
    KeptOn<std::optional<Day>> kept{day(0), day(0)};
    const auto plan = [](const std::optional<Day>& before, Day today) {
        WorkPiece retry{minutes(20), {{today, today + Days{30}}}};
        retry.late = Lateness{day(-1), day(-22), 1};
        retry.kept_day = before;
        TimeAhead time{today, std::vector<DayTime>(31, DayTime{minutes(60), {}, false})};
        return place_work(time, {retry}).days[0];
    };
    for (int today = 0; today < 20; ++today) {
        kept = rolled(kept, day(today), plan);
        CHECK(kept.kept == day(today));
    }
}

TEST_CASE("the retries to come of a paper fall in their window, or on the days after it up to the exam") {
    const auto text = [](std::optional<Day> exam, int last) {
        std::string spans;
        for (const DaySpan span : spans_of_expected({{Seconds(600)}, exam}, day(0), day(last)))
            spans += std::to_string((span.first - day(0)).count()) + ".." +
                     std::to_string((span.last - day(0)).count()) + " ";
        return spans;
    };
    CHECK(text(day(60), 90) == "14..21 22..59 ");
    CHECK(text(day(22), 90) == "14..21 ");
    CHECK(text(std::nullopt, 21) == "14..21 ");
    CHECK(text(day(1), 90).empty());
}

TEST_CASE("two papers are short of a second day, however long the one is") {
    const std::vector<WorkPiece> two{paper(90, 0, 0), paper(90, 0, 0)};
    CHECK(proven_short(days_of(300, 1), two) == minutes(90));
    CHECK(proven_short(days_of(300, 2), {paper(90, 0, 1), paper(90, 0, 1)}) == Seconds(0));
}
