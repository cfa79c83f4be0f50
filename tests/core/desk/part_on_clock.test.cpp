#include "inkturn/desk/part_on_clock.hpp"

#include "catch.hpp"

#include <memory>
#include <vector>

namespace {

using namespace inkturn;

constexpr Moment start{Seconds(1'790'000'000)};

/// Three parts of 2 marks and 144 s each: the ink changes after 432 s.
Script script_of(std::vector<ClockEvent> events) {
    const auto paper = std::make_shared<const Paper>(
        PaperHead{"made-up", "", "", std::nullopt, RetryBy::question},
        std::vector<Part>{{"1", Marks(2), "", ""}, {"2", Marks(2), "", ""}, {"3", Marks(2), "", ""}});
    Script script = blank_script("me", paper, Day{date::year{2026} / date::November / 2}, {});
    script.events = std::move(events);
    return script;
}

ClockEvent event(ClockEventKind kind, int seconds, std::size_t part = 0) {
    return {kind, start + Seconds(seconds), part};
}

} // namespace

TEST_CASE("a script without a clock shows nothing of its parts") {
    CHECK(parts_on_clock(script_of({})).empty());
}

TEST_CASE("a part is seen in the inks in which it was in hand") {
    const auto seen =
        parts_on_clock(script_of({event(ClockEventKind::start, 0, 0), event(ClockEventKind::go, 400, 1),
                                  event(ClockEventKind::hand_in, 500)}));
    REQUIRE(seen.size() == 3);
    CHECK(seen[0].in_time);
    CHECK_FALSE(seen[0].overtime);
    CHECK(seen[1].in_time);
    CHECK(seen[1].overtime);
    CHECK(seen[1].time.in_time == Seconds(32));
    CHECK(seen[1].time.overtime == Seconds(68));
    CHECK(seen[1].allowance == Seconds(144));
    CHECK_FALSE(seen[2].in_time);
    CHECK_FALSE(seen[2].overtime);
}

TEST_CASE("a part that was in hand for no whole second was in hand") {
    const auto seen =
        parts_on_clock(script_of({event(ClockEventKind::start, 0, 0), event(ClockEventKind::go, 60, 1),
                                  event(ClockEventKind::go, 60, 2), event(ClockEventKind::hand_in, 120)}));
    CHECK(seen[1].in_time);
    CHECK_FALSE(seen[1].overtime);
}

TEST_CASE("a part that is taken in hand as the ink changes is seen in overtime alone") {
    const auto seen =
        parts_on_clock(script_of({event(ClockEventKind::start, 0, 0), event(ClockEventKind::go, 432, 1),
                                  event(ClockEventKind::hand_in, 432)}));
    CHECK_FALSE(seen[1].in_time);
    CHECK(seen[1].overtime);
}

TEST_CASE("the first marks of a part are in overtime only where the clock saw it then and not before") {
    PartOnClock seen;
    CHECK(first_phase(seen) == Phase::in_time);
    seen.overtime = true;
    CHECK(first_phase(seen) == Phase::overtime);
    seen.in_time = true;
    CHECK(first_phase(seen) == Phase::in_time);
    seen.overtime = false;
    CHECK(first_phase(seen) == Phase::in_time);
}

TEST_CASE("a break moves the change of ink, and the part that is in hand across it is seen in both inks") {
    const auto seen =
        parts_on_clock(script_of({event(ClockEventKind::start, 0, 0), event(ClockEventKind::rest, 100),
                                  event(ClockEventKind::work, 700), event(ClockEventKind::go, 1031, 1),
                                  event(ClockEventKind::hand_in, 1033)}));
    CHECK_FALSE(seen[0].overtime);
    CHECK(seen[1].in_time);
    CHECK(seen[1].overtime);
}

TEST_CASE("marks in overtime are doubtful where the clock never reached it") {
    const PartMarks in_overtime({Marks(1), Marks(1)}, Marks(2));
    const auto early =
        parts_on_clock(script_of({event(ClockEventKind::start, 0, 0), event(ClockEventKind::hand_in, 431)}));
    CHECK(is_overtime_doubtful(early, in_overtime));
    CHECK_FALSE(is_overtime_doubtful(early, full_marks(Marks(2))));
    const auto late =
        parts_on_clock(script_of({event(ClockEventKind::start, 0, 0), event(ClockEventKind::hand_in, 433)}));
    CHECK_FALSE(is_overtime_doubtful(late, in_overtime));
    CHECK_FALSE(is_overtime_doubtful({}, in_overtime));
}
