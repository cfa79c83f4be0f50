#include "exchange/calendar.hpp"

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
#endif

#include <algorithm>
#include <memory>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

constexpr Day monday{date::year{2026} / date::November / 2};
constexpr Day today = monday + Days{16};
constexpr DaySpan weeks{today, today + Days{27}};

std::shared_ptr<const Paper> paper_of(const std::string& id, const std::string& subject) {
    return std::make_shared<const Paper>(
        PaperHead{id, "", subject, {}, RetryBy::question},
        std::vector<Part>{{"1", Marks(5), "", ""}, {"2a", Marks(3), "", ""}, {"2b", Marks(4), "", ""}});
}

SittingRecord sat(int id, const std::string& paper, Day day, const std::string& line = "3 3 1") {
    const auto on_file = paper_of(paper, "pure");
    return {SittingId{id}, on_file, {day, {}, parse_line(*on_file, line)}, {}};
}

/// Missed both questions of a paper on the Monday.
Candidate example(int sitting = 12) {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(sitting, "pure-1", monday));
    return candidate;
}

/// With all retries on one day.
std::vector<CalendarEvent> events_on(Day day, const Candidate& candidate, EventFor each) {
    auto retries = open_retries(candidate, today);
    for (Retry& retry : retries)
        retry.day = day;
    return events_of_retries(candidate, retries, weeks, each);
}

std::vector<std::string> uids(const std::vector<CalendarEvent>& events) {
    std::vector<std::string> all;
    for (const CalendarEvent& event : events)
        all.push_back(event.uid);
    return all;
}

Exam exam_on(int distance, const std::string& title = "Paper 1", const std::string& subject = "pure") {
    return {title, today + Days{distance}, subject};
}

std::vector<CalendarEvent> exams_of(const std::vector<Exam>& exams) {
    Candidate candidate = example();
    candidate.exams = exams;
    return events_of_exams(candidate, weeks);
}

} // namespace

TEST_CASE("a day's work is one event with a line a retry") {
    const auto events = events_on(today + Days{1}, example(), EventFor::day);
    REQUIRE(events.size() == 1);
    CHECK(events[0].first == today + Days{1});
    CHECK(events[0].last == today + Days{1});
    CHECK(events[0].summary == "2 retries, 15 min");
    CHECK(events[0].description == "pure-1 question 1, 5 marks, 6:00, retry 12q1\n"
                                   "pure-1 question 2 (2a 2b), 7 marks, 8:24, retry 12q2");
}

TEST_CASE("days without work have no event, and neither has work outside the span") {
    Candidate candidate = example();
    auto retries = open_retries(candidate, today);
    retries[0].day = today + Days{1};
    retries[1].day = today + Days{3};
    const auto count = [&](int from, int to) {
        return events_of_retries(candidate, retries, {today + Days{from}, today + Days{to}}, EventFor::day)
            .size();
    };
    CHECK(count(0, 9) == 2);
    CHECK(count(1, 3) == 2);
    CHECK(count(2, 3) == 1);
    CHECK(count(2, 2) == 0);
    retries[1].day.reset();
    CHECK(count(0, 9) == 1);
}

TEST_CASE("each retry may have an event of its own") {
    const auto events = events_on(today + Days{1}, example(), EventFor::retry);
    REQUIRE(events.size() == 2);
    CHECK(events[1].first == today + Days{1});
    CHECK(events[1].last == today + Days{1});
    CHECK(events[1].summary == "pure-1 question 2, 9 min");
    CHECK(events[1].description == "pure-1 question 2 (2a 2b), 7 marks, 8:24, retry 12q2");
}

TEST_CASE("a UID is what it was in calendars that were written before") {
    CHECK(uids(events_on(today, example(), EventFor::day)) ==
          std::vector<std::string>{"inkturn-day-d0dea3a9b843770e"});
    CHECK(uids(events_on(today, example(), EventFor::retry)) ==
          std::vector<std::string>{"inkturn-retry-c6cd44479ef100ff", "inkturn-retry-265f0c3f485918fc"});
    CHECK(uids(exams_of({exam_on(3)})) == std::vector<std::string>{"inkturn-exam-1ce6b7492eb30c68"});
}

TEST_CASE("UIDs come from facts, whatever the numbers of the store") {
    for (const EventFor each : {EventFor::day, EventFor::retry})
        CHECK(uids(events_on(today, example(12), each)) == uids(events_on(today, example(3), each)));
}

TEST_CASE("a retry that is placed anew keeps its UID, and its next turn has another") {
    Candidate candidate = example();
    const auto first = uids(events_on(today + Days{1}, candidate, EventFor::retry));
    CHECK(uids(events_on(today + Days{5}, candidate, EventFor::retry)) == first);
    candidate.sittings[0].reattempts.push_back(
        {"1", 1, today, parse_line(*candidate.sittings[0].paper, {0}, "4")});
    const auto second = uids(events_on(today + Days{5}, candidate, EventFor::retry));
    REQUIRE(second.size() == 2);
    CHECK(second[0] == first[1]);
    CHECK(std::count(first.begin(), first.end(), second[1]) == 0);
}

TEST_CASE("UIDs differ by candidate, day, paper, sitting's day and question, and show no code") {
    std::set<std::string> all;
    std::size_t count = 0;
    for (const std::string code : {"K07", "K0", "me"})
        for (const std::string paper : {"pure-1", "pure-11"})
            for (const int later : {0, 1}) {
                Candidate candidate = example();
                candidate.code = code;
                candidate.sittings = {sat(1, paper, monday + Days{later})};
                for (const std::string& uid : uids(events_on(today, candidate, EventFor::retry))) {
                    all.insert(uid);
                    ++count;
                    CHECK(uid.find(code) == std::string::npos);
                }
            }
    for (const std::string code : {"K07", "K0", "me"})
        for (const int later : {0, 1}) {
            Candidate candidate = example();
            candidate.code = code;
            all.insert(uids(events_on(today + Days{later}, candidate, EventFor::day)).at(0));
            ++count;
        }
    CHECK(count == 3 * 2 * 2 * 2 + 3 * 2);
    CHECK(all.size() == count);
}

TEST_CASE("an exam is an event that says its subject") {
    const auto events = exams_of({exam_on(0), exam_on(27, "Mock week", "")});
    REQUIRE(events.size() == 2);
    CHECK(events[0].first == today);
    CHECK(events[0].last == today);
    CHECK(events[0].summary == "Exam: Paper 1");
    CHECK(events[0].description == "Subject: pure");
    CHECK(events[1].summary == "Exam: Mock week");
    CHECK(events[1].description == "All subjects");
}

TEST_CASE("exams outside the span, and of subjects that the candidate has sat no paper of, are left out") {
    CHECK(exams_of({exam_on(-1), exam_on(28)}).empty());
    CHECK(exams_of({exam_on(3, "Paper 1", "mechanics")}).empty());
}

TEST_CASE("an exam that is put off keeps its UID, and no other exam has it") {
    const auto alone = uids(exams_of({exam_on(3)}));
    CHECK(uids(exams_of({exam_on(10)})) == alone);
    const auto all = uids(
        exams_of({exam_on(3), exam_on(4, "Paper 2"), exam_on(5, "Paper 1", ""), exam_on(9), exam_on(9)}));
    REQUIRE(all.size() == 5);
    CHECK(all[0] == alone[0]);
    CHECK(std::set<std::string>(all.begin(), all.end()).size() == 5);
    // One that is over still counts.
    CHECK(uids(exams_of({exam_on(-30), exam_on(9)})) == std::vector<std::string>{all[3]});
}
