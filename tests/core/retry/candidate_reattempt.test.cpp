#include "inkturn/retry/candidate.hpp"

#include "catch.hpp"
#include "core/retry/candidates.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <memory>
#include <optional>
#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;

} // namespace

TEST_CASE("a re-attempt that gets the question ends its retries, one that does not opens the next turn") {
    Candidate candidate = example();
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=4:slip", 15, 30)};
    auto retries = open_retries(candidate, day(15));
    REQUIRE(retries.size() == 2);
    const auto next =
        std::find_if(retries.begin(), retries.end(), [](const Retry& retry) { return retry.id.turn == 2; });
    REQUIRE(next != retries.end());
    CHECK(to_text(next->id) == "12q1t2");
    CHECK(next->dropped_on == day(15));
    CHECK(next->window->opens == day(29));
    CHECK(next->missed_marks == Marks(1));

    candidate.sittings[0].reattempts.push_back(take(candidate, "12q1t2", "1=4+1", 29, 30));
    retries = open_retries(candidate, day(30));
    REQUIRE(retries.size() == 1);
    CHECK(to_text(retries[0].id) == "12q3");
}

TEST_CASE("a re-attempt is taken on any day from the attempt to today") {
    const Candidate candidate = example();
    CHECK(take(candidate, "12q1", "", 0, 30).day == day(0));
    CHECK(take(candidate, "12q1", "", 30, 30).day == day(30));
    CHECK_THROWS_WITH(take(candidate, "12q1", "", -1, 30),
                      "retry 12q1 on 2026-11-01: the question was missed on 2026-11-02; a re-attempt can't "
                      "come before that");
    CHECK_THROWS_WITH(take(candidate, "12q1", "", 31, 30),
                      StartsWith("a re-attempt on 2026-12-03 is in the future"));
}

TEST_CASE("a re-attempt that can't be recorded says why") {
    Candidate candidate = example();
    CHECK_THROWS_WITH(take(candidate, "13q1", "", 15, 15), StartsWith("candidate K07 has no sitting 13"));
    CHECK_THROWS_WITH(take(candidate, "12q9", "", 15, 15),
                      StartsWith("no retry 12q9: paper made-up has no question 9"));
    CHECK_THROWS_WITH(take(candidate, "12q2", "", 15, 15), "no retry 12q2: question 2 was not missed");
    CHECK_THROWS_WITH(take(candidate, "12q1t2", "", 15, 15), "no retry 12q1t2 yet: record 12q1 first");
    CHECK_THROWS_WITH(take(candidate, "12q1", "2=1", 15, 15),
                      EndsWith("does not belong to the question that is retried"));
    CHECK_THROWS_WITH(take_retry(candidate, parse_retry_id("12q1"), {}, {}, day(15), day(15)),
                      StartsWith("no marks for 1"));
}

TEST_CASE("a re-attempt is recorded once, in the order of turns") {
    Candidate candidate = example();
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=0", 15, 30),
                                        take(candidate, "12q3", "", 15, 30)};
    CHECK_THROWS_WITH(take(candidate, "12q1", "", 16, 30),
                      StartsWith("retry 12q1 was recorded on 2026-11-17"));
    CHECK_THROWS_WITH(take(candidate, "12q1t3", "", 16, 30), "no retry 12q1t3 yet: record 12q1t2 first");
    CHECK_THROWS_WITH(take(candidate, "12q3t2", "", 16, 30),
                      "no retry 12q3t2: question 3 is already secured");
    CHECK_THROWS_WITH(take(candidate, "12q1t2", "", 14, 30),
                      StartsWith("retry 12q1t2 on 2026-11-16: the question was "
                                 "missed on 2026-11-17"));
}

TEST_CASE("only the last turn recorded can be undone") {
    Candidate candidate = example();
    CHECK_THROWS_WITH(check_can_be_undone(candidate, parse_retry_id("12q1")),
                      StartsWith("retry 12q1 was not recorded"));
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=0", 15, 30)};
    CHECK_NOTHROW(check_can_be_undone(candidate, parse_retry_id("12q1")));
    CHECK_THROWS_AS(check_can_be_undone(candidate, parse_retry_id("12q3")), Error);
    candidate.sittings[0].reattempts.push_back(take(candidate, "12q1t2", "1=0", 30, 30));
    CHECK_THROWS_WITH(check_can_be_undone(candidate, parse_retry_id("12q1")),
                      StartsWith("retry 12q1: a later turn was recorded"));
    CHECK_NOTHROW(check_can_be_undone(candidate, parse_retry_id("12q1t2")));
}

TEST_CASE("a sitting is not replaced by one that a recorded retry contradicts") {
    Candidate candidate = example();
    const Paper& paper = *candidate.sittings[0].paper;
    const auto replaced_by = [&](const std::string& line, int on) {
        check_can_replace(paper, {day(on), {}, parse_line(paper, line)}, candidate.sittings[0], day(30));
    };
    CHECK_NOTHROW(replaced_by("5 4 6", 30));
    CHECK_THROWS_AS(replaced_by("5 4 6", 31), Error);
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=0", 15, 30)};
    CHECK_NOTHROW(replaced_by("4 4 6", 15));
    CHECK_THROWS_WITH(replaced_by("5 4 6", 0),
                      StartsWith("sitting 12: question 1 would no longer be missed"));
    CHECK_THROWS_WITH(replaced_by("4 4 6", 16),
                      StartsWith("sitting 12 would come after its retry 12q1 of 2026-11-17"));
}
