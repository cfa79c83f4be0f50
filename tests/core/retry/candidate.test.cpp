#include "inkturn/retry/candidate.hpp"

#include "catch.hpp"
#include "core/retry/candidates.hpp"
#include "inkturn/base/error.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::StartsWith;

/// "12q1 +14 12q3 none": each retry with its day's distance from the Monday.
std::string days_of(const std::vector<Retry>& retries) {
    std::string text;
    for (const Retry& retry : retries)
        text += (text.empty() ? "" : " ") + to_text(retry.id) + " " +
                (retry.day ? "+" + std::to_string((*retry.day - monday).count()) : "none");
    return text;
}

} // namespace

TEST_CASE("each missed question makes one retry, with all the question's marks for its allowance") {
    const auto retries = open_retries(example(), day(0));
    REQUIRE(retries.size() == 2);
    CHECK(to_text(retries[0].id) == "12q1");
    CHECK(retries[0].candidate == "K07");
    CHECK(retries[0].missed_marks == Marks(2));
    CHECK(retries[0].allowance == Seconds(360));
    CHECK(retries[0].paper_question().label == "1");
    CHECK(to_text(retries[1].id) == "12q3");
    CHECK(retries[1].missed_marks == Marks(5));
    CHECK(retries[1].day_is_new);
    CHECK_FALSE(retries[1].late);
}

TEST_CASE("a retry's allowance has the extra time of its sitting") {
    Candidate candidate = example();
    candidate.sittings[0].sitting.extra_time = ExtraTime(25);
    CHECK(open_retries(candidate, day(0))[0].allowance == Seconds(450));
}

TEST_CASE("a candidate without sittings has no retries") {
    CHECK(open_retries(Candidate{}, day(0)).empty());
}

TEST_CASE("days that are on file stay") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(18)}, {SittingId{12}, "3", day(18)}};
    const auto retries = open_retries(candidate, day(0));
    CHECK(days_of(retries) == "12q1 +18 12q3 +18");
    CHECK_FALSE(retries[0].day_is_new);
    CHECK(days_of(open_retries(candidate, day(18))) == "12q1 +18 12q3 +18");
}

TEST_CASE("to place everything again takes no notice of the days on file") {
    Candidate candidate = example();
    const std::string anew = days_of(open_retries(candidate, day(0)));
    candidate.placements = {{SittingId{12}, "1", day(18)}, {SittingId{12}, "3", day(18)}};
    const auto retries = open_retries(candidate, day(0), PlacementMode::again);
    CHECK(days_of(retries) == anew);
    CHECK(retries[0].day_is_new);
    CHECK(retries[1].day_is_new);
}

TEST_CASE("a day that was set off later is given up, and the other stays") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(16)}, {SittingId{12}, "3", day(18)}};
    candidate.availability.dates[day(16)] = Seconds(0);
    const auto retries = open_retries(candidate, day(0));
    CHECK(days_of(retries) == "12q1 +14 12q3 +18");
    CHECK(retries[0].day_is_new);
    CHECK_FALSE(retries[1].day_is_new);
}

TEST_CASE("an exam that was added later moves only what it makes impossible") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(15)}, {SittingId{12}, "3", day(18)}};
    candidate.exams = {{"Mechanics", day(13), "mechanics"}, {"Pure", day(18), "pure"}};
    CHECK(days_of(open_retries(candidate, day(0))) == "12q3 +10 12q1 +15");
    candidate.exams = {{"All", day(10), ""}};
    for (const Retry& retry : open_retries(candidate, day(0))) {
        REQUIRE(retry.window);
        CHECK(retry.window->squeezed);
        CHECK(*retry.day >= day(2));
        CHECK(*retry.day < day(10));
    }
}

TEST_CASE("a day that is past is given up") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(15)}, {SittingId{12}, "3", day(18)}};
    const auto retries = open_retries(candidate, day(16));
    CHECK(days_of(retries) == "12q1 +16 12q3 +18");
}

TEST_CASE("a day that a retry may not take is given up") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(0)}, {SittingId{12}, "3", day(200)}};
    for (const Retry& retry : open_retries(candidate, day(0)))
        CHECK(retry.day_is_new);
}

TEST_CASE("what is late is placed on the next days with room, in its order, whatever day it had") {
    Candidate candidate = example();
    auto retries = open_retries(candidate, day(49));
    REQUIRE(retries.size() == 2);
    for (const Retry& retry : retries) {
        CHECK(retry.late);
        CHECK(*retry.day >= day(49));
        CHECK(*retry.day <= day(56));
    }
    candidate.placements = {{SittingId{12}, "1", day(52)}, {SittingId{12}, "3", day(53)}};
    CHECK(days_of(open_retries(candidate, day(51))) == "12q1 +51 12q3 +51");
    CHECK(days_of(open_retries(candidate, day(53))) == "12q1 +53 12q3 +53");
}

TEST_CASE("where the exam leaves no day there is a retry without one, listed last") {
    Candidate candidate = example();
    candidate.sittings.push_back(sat(13, paper_of("other", {4}, "mechanics"), 0, "1"));
    candidate.exams = {{"Pure", day(1), "pure"}};
    const auto retries = open_retries(candidate, day(0));
    CHECK(days_of(retries) == "13q1 +14 12q1 none 12q3 none");
    CHECK_FALSE(retries[1].window.has_value());
    CHECK_FALSE(retries[1].day_is_new);
}

TEST_CASE("where the exam is past no day is left") {
    Candidate candidate = example();
    candidate.exams = {{"Pure", day(20), "pure"}};
    CHECK(days_of(open_retries(candidate, day(20))) == "12q1 none 12q3 none");
    CHECK(days_of(open_retries(candidate, day(30))) == "12q1 none 12q3 none");
}

TEST_CASE("a window wholly of days off gives way to the nearest day after it") {
    Candidate candidate = example();
    for (int distance = 14; distance <= 23; ++distance)
        candidate.availability.dates[day(distance)] = Seconds(0);
    const auto retries = open_retries(candidate, day(0));
    CHECK(days_of(retries) == "12q1 +24 12q3 +24");
    CHECK(retries[0].outside_window);
    CHECK(retries[0].day_is_new);
    keep(candidate, retries);
    CHECK_FALSE(open_retries(candidate, day(0))[0].day_is_new);
}

TEST_CASE("where the exam is before that, to the nearest day before the window and after the attempt") {
    Candidate candidate = example();
    for (int distance = 12; distance <= 23; ++distance)
        candidate.availability.dates[day(distance)] = Seconds(0);
    candidate.exams = {{"Pure", day(24), "pure"}};
    CHECK(days_of(open_retries(candidate, day(0))) == "12q1 +11 12q3 +11");
    // The day before is past by now: nothing is placed before today.
    const auto retries = open_retries(candidate, day(12));
    CHECK(days_of(retries) == "12q1 none 12q3 none");
    CHECK_FALSE(retries[0].outside_window);
}

TEST_CASE("without any day to work on nothing is placed") {
    Candidate candidate = example();
    candidate.availability.week.fill(Seconds(0));
    CHECK(days_of(open_retries(candidate, day(0))) == "12q1 none 12q3 none");
    candidate.availability.dates[day(40)] = Seconds(600);
    CHECK(days_of(open_retries(candidate, day(0))) == "12q3 +40 12q1 none"); // for one of them
    candidate.availability.dates[day(40)] = Seconds(900);
    CHECK(days_of(open_retries(candidate, day(0))) == "12q1 +40 12q3 +40");
}

TEST_CASE("a later sitting of the same paper takes the place of the earlier one") {
    Candidate candidate = example();
    candidate.sittings.push_back(sat(20, candidate.sittings[0].paper, 5, "5 4 5"));
    const auto retries = open_retries(candidate, day(5));
    REQUIRE(retries.size() == 1);
    CHECK(to_text(retries[0].id) == "20q3");
    CHECK(retries[0].dropped_on == day(5));
    CHECK_THROWS_WITH(take(candidate, "12q1", "", 6, 6),
                      StartsWith("no retry 12q1: paper made-up was sat again later"));
    // A day is what counts, not the order in which sittings were put on file.
    candidate.sittings[1] = sat(3, candidate.sittings[0].paper, 5, "5 4 6");
    CHECK(open_retries(candidate, day(5)).empty());
}

TEST_CASE("a candidate's code is printable text of 1 to 64 characters") {
    for (const char* const code : {"K07", "me", "a b", "\xC3\xA9"})
        CHECK_NOTHROW(check_candidate_code(code));
    CHECK_NOTHROW(check_candidate_code(std::string(64, 'x')));
    for (const std::string code : {"", " ", " K07", "K07 ", "K\n07", "K\x1b[31m", "\xFF"}) {
        CAPTURE(code);
        CHECK_THROWS_AS(check_candidate_code(code), Error);
    }
    CHECK_THROWS_AS(check_candidate_code(std::string(65, 'x')), Error);
}

TEST_CASE("a candidate with half a sitting, or half a re-attempt, is refused") {
    CHECK_NOTHROW(check_whole(example()));
    CHECK_NOTHROW(check_whole(Candidate{}));
    Candidate candidate = example();
    candidate.sittings[0].sitting.parts.pop_back();
    CHECK_THROWS_AS(check_whole(candidate), Error);
    CHECK_THROWS_AS(open_retries(candidate, day(0)), Error);
    candidate = example();
    candidate.sittings[0].paper = nullptr;
    CHECK_THROWS_AS(open_retries(candidate, day(0)), Error);
    candidate = example();
    candidate.sittings[0].reattempts.push_back({"1", 1, day(14), {}});
    CHECK_THROWS_AS(open_retries(candidate, day(14)), Error);
    candidate.sittings[0].reattempts[0].question = "99";
    CHECK_THROWS_AS(open_retries(candidate, day(14)), Error);
    candidate = example();
    candidate.availability.free_days = Days{8};
    CHECK_THROWS_AS(open_retries(candidate, day(0)), Error);
}

TEST_CASE("the window of an open turn is that of its retry") {
    const Candidate candidate = example();
    const auto window = window_of(candidate, {SittingId{12}, "1", 1}, day(0));
    REQUIRE(window.has_value());
    CHECK(window->opens == open_retries(candidate, day(0))[0].window->opens);
    CHECK(window->closes == open_retries(candidate, day(0))[0].window->closes);
    CHECK_FALSE(window_of(candidate, {SittingId{12}, "2", 1}, day(0)).has_value()); // nothing missed
    CHECK_THROWS_AS(window_of(candidate, {SittingId{12}, "9", 1}, day(0)), Error);
    CHECK_THROWS_AS(window_of(candidate, {SittingId{13}, "1", 1}, day(0)), Error);
}
