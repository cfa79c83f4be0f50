#include "inkturn/statistics/trend.hpp"

#include "catch.hpp"
#include "days.hpp"

#include <cstddef>
#include <memory>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr Moment nine{monday + std::chrono::hours{9}};

/// Questions 1, of 5 marks, and 2, of 4 and 6.
std::shared_ptr<const Paper> paper(const std::string& id) {
    return std::make_shared<const Paper>(
        PaperHead{id, "", "pure", {}, RetryBy::question},
        std::vector<Part>{{"1", Marks(5), "", ""}, {"2a", Marks(4), "", ""}, {"2b", Marks(6), "", ""}});
}

SittingRecord sat(int id, const std::shared_ptr<const Paper>& of, const std::string& line,
                  ExtraTime extra = {}) {
    return {SittingId{id}, of, {monday + Days{id}, extra, parse_line(*of, line)}, {}};
}

void retry(SittingRecord& record, const std::string& question, int turn, const std::string& line) {
    const std::size_t position = *record.paper->find_question(question);
    record.reattempts.push_back({question, turn, record.sitting.day + Days{20 * turn},
                                 parse_line(*record.paper, record.paper->questions()[position].parts, line)});
}

Trend trend_of(std::vector<SittingRecord> sittings) {
    Candidate candidate;
    candidate.sittings = std::move(sittings);
    return trend(candidate);
}

ClockEvent event(ClockEventKind kind, int seconds, std::size_t part = 0) {
    return {kind, nine + Seconds(seconds), part};
}

/// Part 1 for 400 s, then a break of 100 s, then part 2a until the work is handed in at `end`.
SittingRecord by_the_clock(int end, ExtraTime extra = {}) {
    SittingRecord record = sat(1, paper("p"), "5 4 0", extra);
    record.sitting.clock = {event(ClockEventKind::start, 0), event(ClockEventKind::go, 400, 1),
                            event(ClockEventKind::rest, 400), event(ClockEventKind::work, 500),
                            event(ClockEventKind::hand_in, end)};
    return record;
}

/// `turn: got of done`, a turn each.
std::string turns_of(const Trend& of) {
    std::string text;
    for (const TurnCount& count : of.turns)
        text += (text.empty() ? "" : ", ") + std::to_string(count.turn) + ": " + std::to_string(count.got) +
                " of " + std::to_string(count.done);
    return text;
}

} // namespace

TEST_CASE("each sitting has its totals, in the order of time") {
    const Trend of = trend_of({sat(3, paper("a"), "5 1+2+1 6"), sat(8, paper("b"), "0 - 0+1")});
    REQUIRE(of.sittings.size() == 2);
    CHECK(of.sittings[0].id == SittingId{3});
    CHECK(of.sittings[0].day == monday + Days{3});
    CHECK(of.sittings[0].totals.max == Marks(15));
    CHECK(of.sittings[0].totals.in_time == Marks(12));
    CHECK(of.sittings[0].totals.unaided() == Marks(14));
    CHECK(of.sittings[0].totals.corrected == Marks(1));
    CHECK(of.sittings[1].id == SittingId{8});
    CHECK(of.sittings[1].paper->id() == "b");
}

TEST_CASE("a paper sat again is told from one sat the first time") {
    const Trend of = trend_of({sat(1, paper("a"), "0 0 0"), sat(2, paper("b"), "0 0 0"),
                               sat(3, paper("a"), "1 1 1"), sat(4, paper("a"), "2 2 2")});
    std::vector<int> times;
    for (const TrendSitting& sitting : of.sittings)
        times.push_back(sitting.time_sat);
    CHECK(times == std::vector<int>{1, 1, 2, 3});
}

TEST_CASE("without a clock the reach is worked out from the marks, and the time per mark isn't known") {
    const Trend of = trend_of({sat(1, paper("a"), "0 0+3 -")});
    CHECK(of.sittings[0].reach == Marks(5));
    CHECK_FALSE(of.sittings[0].worked);
    CHECK_FALSE(of.sittings[0].seconds_per_mark());
}

TEST_CASE("with a clock the reach and what a mark took go by it, breaks left out") {
    const Trend of = trend_of({by_the_clock(900)});
    const TrendSitting& sitting = of.sittings[0];
    CHECK(sitting.reach == Marks(9)); // by the marks it would be 15
    CHECK(sitting.worked->in_time == Seconds(800));
    CHECK(sitting.worked->overtime == Seconds(0));
    CHECK(sitting.seconds_per_mark() == 800.0 / 9);
    CHECK(sitting.allowed_per_mark() == 72);
}

TEST_CASE("work after the ink changed is overtime, and no part of what a mark took") {
    const Trend of = trend_of({by_the_clock(1500)});
    CHECK(of.sittings[0].worked->in_time == Seconds(15 * 72));
    CHECK(of.sittings[0].worked->overtime == Seconds(1400 - 15 * 72));
    CHECK(of.sittings[0].seconds_per_mark() == 120);
}

TEST_CASE("extra time allows more for a mark") {
    CHECK(trend_of({sat(1, paper("a"), "0 0 0", ExtraTime(25))}).sittings[0].allowed_per_mark() == 90);
    CHECK(trend_of({by_the_clock(1500, ExtraTime(50))}).sittings[0].worked->overtime == Seconds(0));
}

TEST_CASE("re-attempts are counted by turn, over all sittings") {
    SittingRecord first = sat(1, paper("a"), "0 4 0");
    retry(first, "1", 1, "4");
    retry(first, "1", 2, "5");
    retry(first, "2", 1, "0:slip 6"); // 2a was not missed
    SittingRecord again = sat(2, paper("a"), "5 4 5");
    retry(again, "2", 1, "4 5");
    retry(again, "2", 2, "4 5");
    retry(again, "2", 3, "4 3+3");
    CHECK(turns_of(trend_of({first, again})) == "1: 1 of 3, 2: 1 of 2, 3: 1 of 1");
}

TEST_CASE("no sittings have no trend, and no re-attempts no turns") {
    CHECK(trend_of({}).sittings.empty());
    CHECK(trend_of({}).turns.empty());
    CHECK(trend_of({sat(1, paper("a"), "0 0 0")}).turns.empty());
}

TEST_CASE("as many re-attempts are counted as are on file, and no more are got at a turn than done") {
    std::mt19937 dice(5);
    for (int round = 0; round < 300; ++round) {
        std::vector<SittingRecord> sittings;
        std::size_t reattempts = 0;
        std::size_t secured = 0;
        for (int id = 1; id <= 4; ++id) {
            SittingRecord record = sat(id, paper(id % 2 == 0 ? "a" : "b"), "1 2 3");
            for (int turn = 1; turn < 5; ++turn) {
                const bool got = dice() % 3 == 0;
                retry(record, "1", turn, got ? "5" : "4");
                ++reattempts;
                secured += got ? 1 : 0;
                if (got)
                    break;
            }
            sittings.push_back(record);
        }
        std::size_t done = 0;
        std::size_t got = 0;
        for (const TurnCount& count : trend_of(sittings).turns) {
            REQUIRE(count.done > 0);
            REQUIRE(count.got <= count.done);
            done += count.done;
            got += count.got;
        }
        REQUIRE(done == reattempts);
        REQUIRE(got == secured);
    }
}

TEST_CASE("a secured question that is met again counts, with whether it was got") {
    const auto p = paper("p");
    SittingRecord first = sat(1, p, "0 4 6"); // question 1 is missed, secured on day 21, met on day 41
    retry(first, "1", 1, "5");
    first.asked_again = {{"1", 2, first.sitting.day + Days{20}}};
    retry(first, "1", 2, "3");
    const Trend by_turn = trend_of({first});
    CHECK(by_turn.secured_again.met == 1);
    CHECK(by_turn.secured_again.got == 0);

    SittingRecord missed = sat(1, p, "0 0 6");
    retry(missed, "1", 1, "5");
    retry(missed, "2", 1, "1 6");
    const SittingRecord again = sat(50, p, "5 4 0");
    const Trend sat_again = trend_of({missed, again}); // question 2 had not been secured
    CHECK(sat_again.secured_again.met == 1);
    CHECK(sat_again.secured_again.got == 1);
    const auto interval = sat_again.secured_again.interval();
    REQUIRE(interval);
    CHECK(interval->low == jeffreys_interval(1, 1).low);
}

TEST_CASE("a question that was not secured before it was met again does not count") {
    const auto p = paper("p");
    SittingRecord first = sat(1, p, "0 4 6");
    CHECK(trend_of({first, sat(50, p, "5 4 6")}).secured_again.met == 0); // no retry at all
    retry(first, "1", 1, "5");                                            // on day 21
    CHECK(trend_of({first, sat(20, p, "5 4 6")}).secured_again.met == 0);
    CHECK(trend_of({first, sat(21, p, "5 4 6")}).secured_again.met == 0);
    CHECK(trend_of({first, sat(22, p, "5 4 6")}).secured_again.met == 1);
    CHECK(trend_of({first, sat(22, p, "not-set 4 6")}).secured_again.met == 0);
    CHECK(trend_of({first, sat(22, p, "3 4 6"), sat(30, p, "5 4 6")}).secured_again.met == 1);
    CHECK_FALSE(trend_of({first}).secured_again.interval());
}
