#include "view/text/retries.hpp"

#include "catch.hpp"
#include "view/text/lines.hpp"
#include "view/text/timetable.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

Day day(const char* text) {
    return *read_iso_day(text);
}

std::string span(const char* first, const char* last) {
    return day_text(DaySpan{day(first), day(last)});
}

/// Sat on 25 November 2026; question 7 was missed in all its parts.
Candidate example() {
    const auto paper = std::make_shared<const Paper>(
        PaperHead{"made-up", "", "", {}, RetryBy::question},
        std::vector<Part>{{"7a", Marks(2), "", ""}, {"7b", Marks(4), "", ""}, {"7c", Marks(6), "", ""}});
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(
        {SittingId{12}, paper, {day("2026-11-25"), {}, parse_line(*paper, "1 0 -")}, {}});
    return candidate;
}

Retry example_retry() {
    return open_retries(example(), day("2026-11-25")).at(0);
}

} // namespace

TEST_CASE("a span of days says the month and the year once where they are the same") {
    CHECK(span("2026-12-09", "2026-12-16") == "9 to 16 Dec 2026");
    CHECK(span("2026-11-29", "2026-12-06") == "29 Nov to 6 Dec 2026");
    CHECK(span("2026-12-29", "2027-01-05") == "29 Dec 2026 to 5 Jan 2027");
    CHECK(span("2026-12-09", "2026-12-09") == "9 Dec 2026");
    CHECK(span("2026-12-09", "2027-12-09") == "9 Dec 2026 to 9 Dec 2027");
    CHECK(span("2026-05-01", "2026-05-31") == "1 to 31 May 2026");
}

TEST_CASE("retries are counted in words") {
    CHECK(counted_retries(0) == "0 retries");
    CHECK(counted_retries(1) == "1 retry");
    CHECK(counted_retries(2) == "2 retries");
}

TEST_CASE("a retry asks for all parts of its question") {
    CHECK(parts_asked(example_retry()) == "7a 7b 7c");
}

TEST_CASE("a remark names what is unusual, the most important first") {
    Retry retry = example_retry();
    CHECK(remark(retry) == "");
    retry.window->squeezed = true;
    CHECK(remark(retry) == "squeezed");
    retry.outside_window = true;
    CHECK(remark(retry) == "outside");
    retry.day.reset();
    CHECK(remark(retry) == "not placed");
    retry.window.reset();
    CHECK(remark(retry) == "no day left");
}

TEST_CASE("retries are shown with their days") {
    const auto lines = lines_of(retries_by_day({example_retry()}, day("2026-11-25")));
    REQUIRE(lines.size() == 2);
    CHECK(lines[0] == "retry  parts       missed   time  day             window");
    CHECK(lines[1] == "12q7   7a 7b 7c  11 of 12  14:24  Wed 9 Dec 2026  9 Dec to 16 Dec");
}

TEST_CASE("a retry without a day or a window is shown all the same") {
    Candidate candidate = example();
    candidate.exams = {{"Paper", day("2026-11-26"), ""}};
    const auto lines =
        lines_of(retries_by_day(open_retries(candidate, day("2026-11-25")), day("2026-11-25")));
    CHECK(lines.at(1) == "12q7   7a 7b 7c  11 of 12  14:24  -    none    no day left");
}

TEST_CASE("late retries show for how long in a column of its own, which is there only where one is late") {
    Retry retry = example_retry();
    retry.late = true;
    const auto lines = lines_of(retries_by_day({example_retry(), retry}, day("2026-12-17")));
    CHECK(lines.at(0) == "retry  parts       missed   time  day             window            late");
    CHECK(lines.at(1) == "12q7   7a 7b 7c  11 of 12  14:24  Wed 9 Dec 2026  9 Dec to 16 Dec");
    CHECK(lines.at(2) == "12q7   7a 7b 7c  11 of 12  14:24  Wed 9 Dec 2026  9 Dec to 16 Dec  1 day");
    CHECK(late_text(retry, day("2026-12-20")) == "4 days");
    CHECK(late_text(example_retry(), day("2026-12-20")).empty());
}

TEST_CASE("the retries of a day are shown with their paper") {
    const auto lines = lines_of(retries_of_day({example_retry()}, day("2026-12-09")));
    CHECK(lines.at(1) == "12q7   made-up  7a 7b 7c  11 of 12  14:24  9 Dec to 16 Dec");
}

TEST_CASE("a plan shows the days with work, and how full they are, rounded up") {
    Candidate candidate = example();
    candidate.availability.dates[day("2026-12-09")] = Seconds(865);
    for (int ahead = 1; ahead <= 7; ++ahead)
        candidate.availability.dates[day("2026-12-09") + Days{ahead}] = Seconds(0);
    TimetableRequest request;
    request.turns = TurnsReserved::first;
    const Plan shown = plan(timetable(candidate, request, day("2026-11-26")), candidate,
                            {day("2026-11-25"), day("2026-12-25")});
    const auto lines = lines_of(plan_table(shown, {}));
    REQUIRE(lines.size() == 2);
    CHECK(lines[0] == "day             planned  available  share  work");
    CHECK(lines[1] == "Wed 9 Dec 2026    14:24      14:25   100%  12q7");
}

TEST_CASE("the rule for retries is said where it is not the default") {
    CHECK(rule_text({}).empty());
    CHECK(rule_text({Marks(2), true}) == "Only questions with at least 2 missed marks make a retry.\n");
    CHECK(rule_text({Marks(1), false}) == "Slips and misreadings alone make no retry.\n");
    CHECK(rule_text({Marks(3), false}) ==
          "Only questions with at least 3 missed marks make a retry, and slips and\n"
          "misreadings alone make none.\n");
}
