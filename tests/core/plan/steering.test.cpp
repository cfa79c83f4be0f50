#include "inkturn/plan/steering.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "papers.hpp"
#include "refusal.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// Sat a paper on day 0 and missed its questions by 1, 2, 3 and 4 marks; an exam in so many days.
Candidate missed_four(int exam = 60) {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(1, paper_of("p1", {10, 10, 10, 10}), 0, "9 8 7 6"));
    candidate.exams = {{"Pure", day(exam), "pure"}};
    return candidate;
}

RetryId retry(const std::string& question, int turn = 1) {
    return {SittingId{1}, question, turn};
}

void want(Candidate& candidate, const std::string& question, int on) {
    candidate.steered_retries.push_back({SittingId{1}, question, {day(on), std::nullopt}});
}

void let_go(Candidate& candidate, const std::string& question) {
    candidate.steered_retries.push_back({SittingId{1}, question, {std::nullopt, LetGo{day(1), "why"}}});
}

void want_paper(Candidate& candidate, const std::string& id, int on) {
    candidate.steered_work.push_back({WorkPurpose::sit, "pure", id, {day(on), std::nullopt}});
}

std::optional<Day> day_of(const Timetable& timetable, const std::string& id) {
    for (const Retry& one : retries_of(timetable))
        if (to_text(one.id) == id)
            return one.day;
    return std::nullopt;
}

std::string ids(const std::vector<Retry>& retries) {
    std::string text;
    for (const Retry& one : retries)
        text += (text.empty() ? "" : " ") + to_text(one.id);
    return text;
}

const WorkName p2{WorkPurpose::sit, "pure", "p2"};

} // namespace

TEST_CASE("a retry is on the day that was asked for until that passes, in its window or not") {
    Candidate candidate = missed_four();
    want(candidate, "1", 3);
    CHECK(day_of(timetable(candidate, request({}), day(1)), "1q1") == day(3));
    CHECK(day_of(timetable(candidate, request({}, PlacementMode::again), day(3)), "1q1") == day(3));
    const auto after = day_of(timetable(candidate, request({}), day(4)), "1q1");
    REQUIRE(after);
    CHECK(*after >= day(14));
    const auto alone = open_retries(candidate, day(1));
    CHECK(alone.front().day == day(3));
    CHECK(alone.front().outside_window);
}

TEST_CASE("what was asked for takes the room of a kept day") {
    Candidate candidate = missed_four();
    candidate.availability.free_days = Days(0);
    candidate.availability.week.fill(Seconds(720)); // one retry a day
    keep(candidate, timetable(candidate, request({}), day(1)));
    const auto before = day_of(timetable(candidate, request({}), day(1)), "1q2");
    REQUIRE(before);
    want(candidate, "1", static_cast<int>((*before - day(0)).count()));
    const Timetable made = timetable(candidate, request({}), day(1));
    CHECK(day_of(made, "1q1") == before);
    CHECK(day_of(made, "1q2").has_value());
    CHECK(day_of(made, "1q2") != before);
}

TEST_CASE("a day asked for that has lost its room is given up, and no day is above its time") {
    Candidate candidate = missed_four();
    want(candidate, "1", 3);
    candidate.availability.dates[day(3)] = Seconds(719);
    const auto on = day_of(timetable(candidate, request({}), day(1)), "1q1");
    REQUIRE(on);
    CHECK(*on != day(3));
    candidate.availability.dates[day(3)] = Seconds(720);
    CHECK(day_of(timetable(candidate, request({}), day(1)), "1q1") == day(3));
    candidate.exams.push_back({"Latin", day(3), "latin"});
    CHECK(day_of(timetable(candidate, request({}), day(1)), "1q1") != day(3));
}

TEST_CASE("what was let go is in no plan") {
    Candidate candidate = missed_four();
    let_go(candidate, "2");
    CHECK(ids(retries_to_place(candidate, day(1))) == "1q1 1q3 1q4");
    candidate.steered_work.push_back({WorkPurpose::sit, "pure", "p2", {std::nullopt, LetGo{day(1), "seen"}}});
    const auto made = timetable(candidate, request({paper("p2", "pure"), paper("p3", "pure")}), day(1));
    CHECK(days_of_papers(made).size() == 1);

    Candidate for_method = test::candidate();
    sit(for_method, paper("m1", "pure"), day(0), 3);
    CHECK(topics_to_relearn(for_method, *all_weak(), retries_to_place(for_method, day(1)), day(1)).size() ==
          4);
    for_method.steered_work.push_back(
        {WorkPurpose::relearn, "pure", "vectors", {std::nullopt, LetGo{day(1), "known"}}});
    const auto topics =
        topics_to_relearn(for_method, *all_weak(), retries_to_place(for_method, day(1)), day(1));
    REQUIRE(topics.size() == 2);
    CHECK(topics.front().topic == "integration");
}

TEST_CASE("both halves of a topic are on the day asked for") {
    Candidate candidate = test::candidate();
    sit(candidate, paper("m1", "pure"), day(0), 3);
    candidate.steered_work.push_back({WorkPurpose::relearn, "pure", "vectors", {day(5), std::nullopt}});
    std::size_t halves = 0;
    for (const WorkItem& item : timetable(candidate, request({}), day(1)).items)
        if (const auto* topic = std::get_if<TopicToRelearn>(&item.work); topic && topic->topic == "vectors") {
            CHECK(item.day == day(5));
            ++halves;
        }
    CHECK(halves == 2);
}

TEST_CASE("a paper asked for is among those that a count leaves") {
    Candidate candidate;
    candidate.exams = {{"Pure", day(60), "pure"}};
    candidate.wishes.papers["pure"] = {1, day(0)};
    candidate.availability.week.fill(Seconds(7200));
    want_paper(candidate, "pure-3", 4);
    const auto made = timetable(candidate, request(papers(3, "pure")), day(1));
    std::vector<std::string> names;
    for (const WorkItem& item : made.items)
        if (const auto* one = std::get_if<PaperToSit>(&item.work))
            names.push_back(name_of(*one) + " " + std::to_string((*item.day - day(0)).count()));
    CHECK(names == std::vector<std::string>{"pure-3 4"});
}

TEST_CASE("a day is asked for from today on, before the exam, on no exam's day") {
    Candidate candidate = missed_four(40);
    candidate.availability.free_days = Days(0);
    candidate.exams.push_back({"Latin", day(9), "latin"});
    const TimetableRequest none = request({});
    const auto refused = [&](int on, int today = 2) {
        return refusal_of([&] { check_can_be_wanted(candidate, none, retry("1"), day(on), day(today)); });
    };
    CHECK(refused(2).empty());
    CHECK(refused(39).empty());
    CHECK(refused(1) == "retry 1q1 on 2026-11-03: that day has passed; ask for today or a later one");
    CHECK(refused(40) == "retry 1q1 on 2026-12-12: its exam is on 2026-12-12; ask for a day before that");
    CHECK(refused(9) == "retry 1q1 on 2026-11-11: 'Latin' is on that day; ask for another one");
    candidate.exams.clear();
    CHECK(refused(368).empty());
    CHECK(refused(369).find("more than a year ahead") != std::string::npos);
}

TEST_CASE("a day is asked for where it has room beside what was done and asked for") {
    Candidate candidate = missed_four();
    candidate.availability.dates[day(5)] = Seconds(1440);
    const auto refused = [&](const std::string& question) {
        return refusal_of(
            [&] { check_can_be_wanted(candidate, request({}), retry(question), day(5), day(5)); });
    };
    CHECK(refused("1").empty());
    want(candidate, "2", 5);
    CHECK(refused("1").empty());
    CHECK(refused("2").empty()); // its own day is no hindrance
    want(candidate, "3", 5);
    CHECK(
        refused("1") ==
        "retry 1q1 on 2026-11-07 takes 12:00, and the day has 0:00 left beside what was done and asked for");
    candidate.steered_retries.pop_back();
    candidate.sittings[0].reattempts.push_back(
        {"4", 1, day(5), {PartMarks(MarksByPhase{}, Marks(10), std::nullopt)}, {}});
    CHECK_FALSE(refused("1").empty());
}

TEST_CASE("one paper a day is asked for, with time for its marking") {
    Candidate candidate;
    candidate.exams = {{"Pure", day(60), "pure"}};
    candidate.availability.free_days = Days(0);
    candidate.availability.week.fill(Seconds(5400));
    const TimetableRequest made_of = request({paper("p2", "pure"), paper("p3", "pure")});
    const auto refused = [&] {
        return refusal_of([&] { check_can_be_wanted(candidate, made_of, p2, day(5), day(1)); });
    };
    CHECK(refused().empty());
    candidate.availability.week.fill(Seconds(5399));
    CHECK(refused().find("takes 1:30:00") != std::string::npos);
    candidate.availability.week.fill(Seconds(20000));
    want_paper(candidate, "p3", 5);
    CHECK(refused().find("another paper was asked for on that day") != std::string::npos);
}

TEST_CASE("nothing is decided about what is not in the plan") {
    Candidate candidate = missed_four();
    let_go(candidate, "2");
    const auto of_retry = [&](const std::string& question) {
        return refusal_of([&] { check_can_be_steered(candidate, retry(question), day(1)); });
    };
    CHECK(of_retry("1").empty());
    CHECK(of_retry("2") == "retry 1q2 was dropped on 2026-11-03 (why)");
    CHECK_FALSE(of_retry("9").empty());
    const auto of_work = [&](const WorkName& work) {
        return refusal_of(
            [&] { check_can_be_steered(candidate, request({paper("p2", "pure")}), work, day(1)); });
    };
    CHECK(of_work(p2).empty());
    CHECK(of_work({WorkPurpose::sit, "pure", "p1"}) == "paper p1 was sat on 2026-11-02");
    CHECK(of_work({WorkPurpose::relearn, "pure", "vectors"}).find("is not to be relearned") !=
          std::string::npos);
}
