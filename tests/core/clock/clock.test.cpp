#include "inkturn/clock/clock.hpp"

#include "catch.hpp"
#include "core/clock/clocks.hpp"
#include "inkturn/base/error.hpp"
#include "refusal.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Kind = ClockEventKind;

/// Three parts: 4, 6 and 2 marks at a minute a mark.
std::vector<ClockPart> three_parts() {
    return {{"1", Marks(4), Seconds(240)}, {"2a", Marks(6), Seconds(360)}, {"2b", Marks(2), Seconds(120)}};
}

Clock clock_after(const std::vector<ClockEvent>& events) {
    return test::clock_after(three_parts(), events);
}

std::string refusal(Clock clock, const ClockEvent& event) {
    return refusal_of([&] { clock.take(event); });
}

} // namespace

TEST_CASE("a clock that has not started shows its allowance and no time") {
    const Clock clock(three_parts());
    const ClockState state = clock.state(at(500));
    CHECK(state.stage == ClockStage::waiting);
    CHECK_FALSE(state.part);
    CHECK(state.worked == Seconds(0));
    CHECK(state.allowance == Seconds(720));
    CHECK(state.remaining == Seconds(720));
    CHECK(state.overtime == Seconds(0));
    CHECK_FALSE(state.ink_changed_at);
    CHECK(state.done == Marks(0));
    CHECK(state.expected == Marks(0));
    CHECK(state.all == Marks(12));
    CHECK(state.ahead == Seconds(0));
    CHECK(clock.record(at(500)).points.empty());
}

TEST_CASE("a clock that runs shows the part in hand and what is left") {
    const Clock clock = clock_after({{Kind::start, at(0)}, {Kind::go, at(200), 1}});
    const ClockState state = clock.state(at(300));
    CHECK(state.stage == ClockStage::working);
    CHECK(state.part == std::size_t{1});
    CHECK(state.worked == Seconds(300));
    CHECK(state.remaining == Seconds(420));
    CHECK(state.done == Marks(4));
    CHECK(state.reached == Marks(5)); // 100 s on a part of 60 s a mark
    CHECK(state.expected == Marks(5));
}

TEST_CASE("a candidate is ahead by what the parts done were given beyond the time that was worked") {
    const Clock clock = clock_after({{Kind::start, at(0)}, {Kind::go, at(200), 1}});
    CHECK(clock.state(at(200)).ahead == Seconds(40));
    CHECK(clock.state(at(560)).ahead == Seconds(40)); // 360 s on a part of 360 s
    CHECK(clock.state(at(561)).ahead == Seconds(39)); // its allowance is used
    CHECK(clock.state(at(700)).ahead == Seconds(-100));
}

TEST_CASE("a part that is in hand again stays done") {
    const Clock clock = clock_after({{Kind::start, at(0)}, {Kind::go, at(100), 1}, {Kind::go, at(150), 0}});
    CHECK(clock.state(at(150)).ahead == Seconds(360 + 240 - 150));
    CHECK(clock.state(at(150)).done == Marks(10));
    CHECK(clock.state(at(150)).reached == Marks(10));
    CHECK(clock.state(at(400)).ahead == Seconds(360 + 240 - 400));
}

TEST_CASE("a part that is gone to while it is in hand is not left") {
    const Clock clock = clock_after({{Kind::start, at(0), 1}, {Kind::go, at(100), 1}});
    CHECK(clock.state(at(100)).done == Marks(0));
    CHECK(clock.state(at(100)).part == std::size_t{1});
}

TEST_CASE("the clock stands still in a break") {
    const Clock resting = clock_after({{Kind::start, at(0)}, {Kind::rest, at(100)}});
    CHECK(resting.state(at(1000)).stage == ClockStage::resting);
    CHECK(resting.state(at(1000)).part == std::size_t{0});
    CHECK(resting.state(at(1000)).worked == Seconds(100));
    CHECK(resting.record(at(1000)).breaks.at(0).to == at(1000));

    Clock back = resting;
    back.take({Kind::work, at(400)});
    CHECK(back.state(at(450)).worked == Seconds(150));
    const ClockRecord record = back.record(at(450));
    REQUIRE(record.breaks.size() == 1);
    CHECK(record.breaks[0].from == at(100));
    CHECK(record.breaks[0].to == at(400));
}

TEST_CASE("the change of ink splits the time on the part in hand exactly") {
    const Clock clock =
        clock_after({{Kind::start, at(0)}, {Kind::go, at(500), 1}, {Kind::hand_in, at(1000)}});
    const ClockRecord record = clock.record(at(1000));
    CHECK(record.ink_changed_at == at(720));
    CHECK(in_time(record, 1) == 220);
    CHECK(overtime(record, 1) == 280);
    CHECK(record.reach == Marks(10));
    const ClockState state = clock.state(at(1000));
    CHECK(state.remaining == Seconds(0));
    CHECK(state.overtime == Seconds(280));
    CHECK(state.expected == Marks(12));
}

TEST_CASE("the ink changes when work has used the allowance, breaks left out") {
    const Clock clock = clock_after({{Kind::start, at(0)}, {Kind::rest, at(700)}, {Kind::work, at(1000)}});
    CHECK_FALSE(clock.state(at(1019)).ink_changed_at);
    CHECK(clock.state(at(1020)).ink_changed_at == at(1020));
    CHECK(clock.state(at(5000)).ink_changed_at == at(1020));
}

TEST_CASE("a part taken in hand at the very change of ink was not reached") {
    const Clock late = clock_after({{Kind::start, at(0)}, {Kind::go, at(720), 1}, {Kind::hand_in, at(800)}});
    const ClockRecord record = late.record(at(800));
    CHECK(record.ink_changed_at == at(720));
    CHECK(record.reach == Marks(4));
    CHECK(in_time(record, 0) == 720);
    CHECK(overtime(record, 0) == 0);
    CHECK(in_time(record, 1) == 0);
    CHECK(overtime(record, 1) == 80);

    const Clock just = clock_after({{Kind::start, at(0)}, {Kind::go, at(719), 1}, {Kind::hand_in, at(800)}});
    CHECK(just.record(at(800)).reach == Marks(10));
}

TEST_CASE("the ink changes at a break that begins as the allowance is used") {
    const Clock clock = clock_after({{Kind::start, at(0)}, {Kind::rest, at(720)}, {Kind::work, at(900)}});
    CHECK(clock.state(at(900)).ink_changed_at == at(720));
}

TEST_CASE("work handed in as the allowance is used has no overtime, one second before no change of ink") {
    const Clock whole = clock_after({{Kind::start, at(0)}, {Kind::hand_in, at(720)}});
    CHECK(whole.record(at(720)).ink_changed_at == at(720));
    CHECK(whole.state(at(720)).overtime == Seconds(0));
    const Clock early = clock_after({{Kind::start, at(0)}, {Kind::hand_in, at(719)}});
    CHECK_FALSE(early.record(at(9999)).ink_changed_at);
    CHECK(early.state(at(9999)).remaining == Seconds(1));
}

TEST_CASE("nothing moves after handing in, and the last part is left") {
    const Clock clock = clock_after({{Kind::start, at(0), 2}, {Kind::hand_in, at(100)}});
    const ClockState state = clock.state(at(5000));
    CHECK(state.stage == ClockStage::handed_in);
    CHECK_FALSE(state.part);
    CHECK(state.worked == Seconds(100));
    CHECK(state.done == Marks(2));
    CHECK(state.ahead == Seconds(20));
}

TEST_CASE("a break ends with the handing in") {
    const Clock clock = clock_after({{Kind::start, at(0)}, {Kind::rest, at(50)}, {Kind::hand_in, at(80)}});
    CHECK(clock.state(at(500)).worked == Seconds(50));
    CHECK(clock.record(at(500)).breaks.at(0).to == at(80));
}

TEST_CASE("a moment before the last event counts as that event's") {
    const Clock clock = clock_after({{Kind::start, at(0)}, {Kind::go, at(200), 1}});
    CHECK(same(clock.state(at(-7)), clock.state(at(200))));
    CHECK(same(clock.record(at(150)), clock.record(at(200))));
}

TEST_CASE("events at one moment are taken in their order") {
    const Clock clock = clock_after({{Kind::start, at(0)},
                                     {Kind::go, at(0), 1},
                                     {Kind::go, at(0), 2},
                                     {Kind::rest, at(0)},
                                     {Kind::work, at(0)},
                                     {Kind::hand_in, at(0)}});
    const ClockRecord record = clock.record(at(0));
    CHECK(record.reach == Marks(12)); // noted to the minute a part may have no time, and was in hand
    CHECK(record.breaks.size() == 1);
    REQUIRE(record.points.size() == 1);
    CHECK(record.points[0].marks == Marks(12));
    CHECK(clock.state(at(0)).ahead == Seconds(720));
}

TEST_CASE("without an allowance the ink changes at the start") {
    const Clock clock = clock_after({{"1", Marks(1), Seconds(0)}}, {{Kind::start, at(3)}});
    CHECK(clock.state(at(3)).ink_changed_at == at(3));
    CHECK(clock.state(at(3)).expected == Marks(1));
    CHECK(clock.record(at(10)).reach == Marks(0));
    CHECK(overtime(clock.record(at(10)), 0) == 7);
}

TEST_CASE("a point of the record is a part that is left for the first time") {
    const Clock clock = clock_after({{Kind::start, at(0)},
                                     {Kind::go, at(100), 1},
                                     {Kind::go, at(150), 0},
                                     {Kind::go, at(160), 1},
                                     {Kind::go, at(200), 2}});
    const ClockRecord record = clock.record(at(260));
    REQUIRE(record.points.size() == 4);
    CHECK(record.points[0].worked == Seconds(0));
    CHECK(record.points[0].marks == Marks(0));
    CHECK(record.points[1].worked == Seconds(100));
    CHECK(record.points[1].marks == Marks(4));
    CHECK(record.points[2].worked == Seconds(150));
    CHECK(record.points[2].marks == Marks(10));
    CHECK(record.points[3].worked == Seconds(260));
    CHECK(record.points[3].marks == Marks(10));
}

TEST_CASE("the clock pays for a mark once its share of the part's allowance is whole") {
    const Clock clock(
        {{"1", Marks(3), Seconds(100)}, {"2", Marks(2), Seconds(0)}, {"3", Marks(1), Seconds(9)}});
    CHECK(clock.expected(Seconds(0)) == Marks(0));
    CHECK(clock.expected(Seconds(33)) == Marks(0));
    CHECK(clock.expected(Seconds(34)) == Marks(1));
    CHECK(clock.expected(Seconds(66)) == Marks(1));
    CHECK(clock.expected(Seconds(67)) == Marks(2));
    CHECK(clock.expected(Seconds(99)) == Marks(2));
    CHECK(clock.expected(Seconds(100)) == Marks(5));
    CHECK(clock.expected(Seconds(108)) == Marks(5));
    CHECK(clock.expected(Seconds(109)) == Marks(6));
    CHECK(clock.expected(Seconds(999999)) == Marks(6));
}

TEST_CASE("at each checkpoint of a paper the clock expects the marks up to there") {
    const Paper paper({"made-up", "", "", std::chrono::minutes{100}, RetryBy::question},
                      {{"1", Marks(4), "", ""}, {"2a", Marks(3), "", ""}, {"2b", Marks(10), "", ""}});
    const ExtraTime extra(25);
    const Clock clock(clock_parts(paper, extra));
    CHECK(clock.allowance() == allowance(paper, extra));
    const std::vector<Seconds> times = checkpoints(paper, extra);
    Marks sum;
    for (std::size_t i = 0; i < times.size(); ++i) {
        sum += paper.parts()[i].max;
        CHECK(clock.expected(times[i]) == sum);
        CHECK(clock.expected(times[i] - Seconds(1)) == sum - Marks(1));
    }
}

TEST_CASE("a retry's clock covers only the question's parts") {
    const Paper paper({"made-up", "", "", {}, RetryBy::question},
                      {{"1", Marks(4), "", ""}, {"2a", Marks(3), "", ""}, {"2b", Marks(10), "", ""}});
    const std::vector<ClockPart> parts = clock_parts(paper, paper.questions()[1]);
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].label == "2a");
    CHECK(parts[1].marks == Marks(10));
    CHECK(Clock(parts).allowance() == Seconds(13 * 72));

    const Clock one = clock_after(clock_parts(paper, paper.questions()[0]),
                                  {{Kind::start, at(0)}, {Kind::hand_in, at(300)}});
    const ClockRecord record = one.record(at(300));
    CHECK(record.ink_changed_at == at(288));
    CHECK(in_time(record, 0) == 288);
    CHECK(overtime(record, 0) == 12);
    CHECK(record.reach == Marks(4));
    CHECK(one.state(at(300)).ahead == Seconds(-12));
}

TEST_CASE("a clock covers at least one part, and no more than a paper has") {
    CHECK_THROWS_AS(Clock({}), Error);
    const ClockPart part{"1", Marks(1), Seconds(72)};
    CHECK_NOTHROW(Clock(std::vector<ClockPart>(Paper::max_parts, part)));
    CHECK_THROWS_AS(Clock(std::vector<ClockPart>(Paper::max_parts + 1, part)), Error);
}

TEST_CASE("what does not follow is refused with its reason") {
    const Clock waiting(three_parts());
    for (const Kind kind : {Kind::go, Kind::rest, Kind::work, Kind::hand_in})
        CHECK(refusal(waiting, {kind, at(0)}) == "the clock has not started: start it first");
    CHECK(refusal(waiting, {Kind::start, at(0), 3}) == "there is no part at position 4: the clock covers 3");

    const Clock working = clock_after({{Kind::start, at(0)}, {Kind::go, at(100), 1}});
    CHECK(refusal(working, {Kind::start, at(100)}) == "the clock has started already: it starts once");
    CHECK(refusal(working, {Kind::go, at(100), 3}) == "there is no part at position 4: the clock covers 3");
    CHECK(refusal(working, {Kind::work, at(100)}) ==
          "the clock is running: there is no break to come back from");
    CHECK(refusal(working, {Kind::go, at(-30), 2}) == "an event 0:30 before the start: correct its time");
    for (const Kind kind : {Kind::go, Kind::rest, Kind::hand_in})
        CHECK(refusal(working, {kind, at(99)}) ==
              "an event 0:01 before the last one: give events in order of time");

    const Clock resting = clock_after({{Kind::start, at(0)}, {Kind::rest, at(100)}});
    CHECK(refusal(resting, {Kind::rest, at(100)}) ==
          "the break has begun already: go back to work before the next one");
    CHECK(refusal(resting, {Kind::go, at(100), 1}) ==
          "no part can be started during a break: go back to work first");
    CHECK(refusal(resting, {Kind::start, at(100)}) == "the clock has started already: it starts once");

    const Clock handed_in = clock_after({{Kind::start, at(0)}, {Kind::hand_in, at(100)}});
    for (const Kind kind : {Kind::start, Kind::go, Kind::rest, Kind::work, Kind::hand_in})
        CHECK(refusal(handed_in, {kind, at(200)}) == "the work is handed in: nothing comes after that");
}

TEST_CASE("a moment outside the accepted days is refused") {
    const Clock waiting(three_parts());
    const std::string message =
        "the clock can't take a moment outside 1900-01-01 to 2200-12-31: set the computer's date";
    CHECK(refusal(waiting, {Kind::start, earliest_day}).empty());
    CHECK(refusal(waiting, {Kind::start, earliest_day - Seconds(1)}) == message);
    CHECK(refusal(waiting, {Kind::start, latest_day + Days{1} - Seconds(1)}).empty());
    CHECK(refusal(waiting, {Kind::start, latest_day + Days{1}}) == message);
}

TEST_CASE("a refused event leaves the clock as it was") {
    Clock clock = clock_after({{Kind::start, at(0)}, {Kind::go, at(100), 1}});
    const Clock before = clock;
    CHECK_THROWS_AS(clock.take({Kind::go, at(900), 7}), Error);
    CHECK_THROWS_AS(clock.take({Kind::work, at(900)}), Error);
    CHECK(same(clock.state(at(200)), before.state(at(200))));
    CHECK(same(clock.record(at(200)), before.record(at(200))));
}

TEST_CASE("a sitting that was cut off rests from the moment when work stopped") {
    Clock clock = clock_after({{Kind::start, at(0)}, {Kind::go, at(100), 1}});
    for (const ClockEvent& event : stopped_at(at(130), at(4000)))
        clock.take(event);
    const ClockState state = clock.state(at(4010));
    CHECK(state.stage == ClockStage::working);
    CHECK(state.worked == Seconds(140));
    CHECK(clock.record(at(4010)).breaks.size() == 1);
    CHECK_NOTHROW(stopped_at(at(5), at(5)));
    CHECK_THROWS_AS(stopped_at(at(6), at(5)), Error);
}
