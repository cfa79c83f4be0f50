#include "inkturn/store/desk.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/clock/clock_line.hpp"
#include "store/store_on_file.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr Moment nine = monday + std::chrono::hours{9};

const Paper& example() {
    static const Paper paper({"made-up", "", "pure", std::nullopt, RetryBy::question},
                             {{"1a", Marks(3), "", ""}, {"1b", Marks(2), "", ""}, {"2", Marks(5), "", ""}});
    return paper;
}

ClockEvent start(Moment at) {
    return {ClockEventKind::start, at, 0};
}

/// A store that holds the paper, and the desk in it.
struct OnDesk : StoreOnFile {
    OnDesk() {
        change([](Store::Change& open) { open.add_paper(example()); });
    }

    std::shared_ptr<const Paper> paper() { return store.find_paper("made-up"); }
    std::vector<Script> scripts(const std::string& code = "me") { return Desk::scripts(store, code); }

    Script begin(Day day = monday, const std::string& code = "me") {
        Script script = blank_script(code, paper(), day, ExtraTime(25));
        change([&](Store::Change& open) { Desk(open).add(script); });
        return script;
    }

    void add_event(Script& script, const ClockEvent& event) {
        change([&](Store::Change& open) { Desk(open).add_event(script, event); });
    }

    void mark(Script& script, const std::string& line) {
        script.marks = parse_script_line(example(), script.positions, line);
        change([&](Store::Change& open) { Desk(open).keep_marks(script); });
    }

    void finish(const Script& script) {
        change([&](Store::Change& open) { Desk(open).finish(script); });
    }

    SittingId log(Day day, const std::string& line) {
        return change([&](Store::Change& open) {
            return open.add_sitting("me", example(), {day, {}, parse_line(example(), line), {}});
        });
    }
};

std::string events_of(const Script& script) {
    return to_line(script.events, *script.paper, script.positions);
}

} // namespace

TEST_CASE("what is on the desk is on file the moment it happens") {
    OnDesk on;
    Script script = on.begin();
    on.add_event(script, start(nine));
    on.add_event(script, {ClockEventKind::go, nine + Seconds(200), 2});
    on.add_event(script, {ClockEventKind::rest, nine + Seconds(300)});
    on.reopen();
    REQUIRE(on.scripts().size() == 1);
    const Script read = on.scripts().front();
    CHECK(to_text(read.id) == to_text(script.id));
    CHECK(read.day == monday);
    CHECK(read.extra_time.percent() == 25);
    CHECK(events_of(read) == events_of(script));
    CHECK(to_line(read.marks) == "? ? ?");
    CHECK_FALSE(read.is_handed_in());
    CHECK(clock_of(read).state(nine + Seconds(600)).worked == Seconds(300));
}

TEST_CASE("a script becomes the sitting of the number it was given, with its clock") {
    OnDesk on;
    Script script = on.begin();
    on.add_event(script, start(nine));
    const SittingId other = on.log(monday + Days{1}, "3 2 5");
    CHECK(other != script.id.sitting);
    on.add_event(script, {ClockEventKind::hand_in, nine + Seconds(900)});
    on.mark(script, "3 ? 1+2");
    on.reopen();
    script = on.scripts().front();
    CHECK(to_line(script.marks) == "3 ? 1+2");
    on.mark(script, "3 - 1+2");
    on.finish(script);
    on.reopen();
    CHECK(on.scripts().empty());
    const Candidate candidate = on.store.candidate("me");
    const SittingRecord& record = get_sitting(candidate, script.id.sitting);
    CHECK(to_line(record.sitting.parts) == "3 - 1+2");
    CHECK(record.sitting.extra_time.percent() == 25);
    const auto clock = clock_of(*record.paper, record.sitting);
    REQUIRE(clock);
    CHECK(record_of(*clock).ink_changed_at == nine + Seconds(900)); // 12 minutes and a quarter more
    CHECK_FALSE(clock_of(*record.paper, get_sitting(candidate, other).sitting));
}

TEST_CASE("a number given to a script is not given again") {
    OnDesk on;
    const Script first = on.begin();
    on.change([&](Store::Change& open) { Desk(open).remove(first.id); });
    const Script second = on.begin();
    CHECK(second.id.sitting != first.id.sitting);
    CHECK(on.log(monday + Days{1}, "3 2 5") != second.id.sitting);
}

TEST_CASE("a paper is sat once a day") {
    OnDesk on;
    on.begin();
    CHECK_THROWS_AS(on.begin(), Error);
    CHECK_NOTHROW(on.begin(monday, "K07"));
    on.log(monday + Days{1}, "3 2 5");
    CHECK_THROWS_AS(on.begin(monday + Days{1}), Error);
    CHECK_NOTHROW(on.begin(monday + Days{2}));
    CHECK(on.scripts().size() == 2);
}

TEST_CASE("a script whose sitting is on file already stays on the desk") {
    OnDesk on;
    Script script = on.begin();
    on.add_event(script, start(nine));
    on.add_event(script, {ClockEventKind::hand_in, nine + Seconds(900)});
    on.mark(script, "3 2 5");
    on.log(monday + Days{1}, "1 1 1");
    script.day = monday + Days{1};
    on.change([&](Store::Change& open) { Desk(open).change(script); });
    CHECK_THROWS_AS(on.finish(script), Error);
    REQUIRE(on.scripts().size() == 1);
    CHECK(to_line(on.scripts().front().marks) == "3 2 5");
}

TEST_CASE("two windows don't move the same clock") {
    OnDesk on;
    Script here = on.begin();
    Script there = here;
    on.add_event(here, start(nine));
    CHECK_THROWS_AS(on.add_event(there, start(nine + Seconds(1))), Error);
    CHECK(there.events.empty());
    CHECK(events_of(on.scripts().front()) == events_of(here));
}

TEST_CASE("a re-attempt on the desk keeps its clock once it is recorded") {
    OnDesk on;
    const SittingId sitting = on.log(monday, "3 0 2");
    const RetryId retry{sitting, "1", 1};
    const Day later = monday + Days{14};
    Script script = blank_script(on.store.candidate("me"), retry, later, later);
    on.change([&](Store::Change& open) { Desk(open).add(script); });
    CHECK(script.positions == std::vector<std::size_t>{0, 1});
    on.add_event(script, start(later + std::chrono::hours{20}));
    on.add_event(script, {ClockEventKind::go, later + std::chrono::hours{20} + Seconds(100), 1});
    on.add_event(script, {ClockEventKind::hand_in, later + std::chrono::hours{20} + Seconds(400)});
    on.mark(script, "3 2");
    on.finish(script);
    on.reopen();
    CHECK(on.scripts().empty());
    const Candidate candidate = on.store.candidate("me");
    const SittingRecord& record = get_sitting(candidate, sitting);
    REQUIRE(record.reattempts.size() == 1);
    CHECK(to_line(record.reattempts[0].clock, *record.paper, {0, 1}) == events_of(script));
    CHECK_THROWS_AS(blank_script(candidate, retry, later, later), Error);
}

TEST_CASE("scripts go with their paper, their candidate and the sitting that they retry") {
    OnDesk on;
    const SittingId sitting = on.log(monday, "3 0 2");
    Script retry =
        blank_script(on.store.candidate("me"), {sitting, "1", 1}, monday + Days{3}, monday + Days{3});
    on.change([&](Store::Change& open) { Desk(open).add(retry); });
    on.begin(monday + Days{1});
    CHECK(on.scripts().size() == 2);
    CHECK(on.store.papers_and_sittings().front().sittings == 2);

    SECTION("the sitting") {
        on.change([&](Store::Change& open) { open.remove_sitting(sitting); });
        CHECK(on.scripts().size() == 1);
        CHECK(on.store.has_candidate("me"));
        on.change([&](Store::Change& open) { Desk(open).remove(on.scripts().front().id); });
        CHECK_FALSE(on.store.has_candidate("me"));
    }
    SECTION("the paper") {
        on.change([&](Store::Change& open) { open.remove_paper("made-up"); });
        CHECK(on.scripts().empty());
        CHECK_FALSE(on.store.has_candidate("me"));
    }
    SECTION("the candidate") {
        on.change([&](Store::Change& open) { open.erase_candidate("me"); });
        CHECK(on.scripts().empty());
    }
}

TEST_CASE("what happens to a script that is gone is refused") {
    OnDesk on;
    Script script = on.begin();
    on.change([&](Store::Change& open) { open.remove_paper("made-up"); });
    CHECK_THROWS_AS(on.add_event(script, start(nine)), Error);
    CHECK_THROWS_AS(on.mark(script, "3 2 5"), Error);
}

TEST_CASE("a script that is changed keeps its number and its place") {
    OnDesk on;
    Script script = on.begin();
    on.begin(monday + Days{1});
    const Script before = script;
    script.day = monday - Days{1};
    script.extra_time = ExtraTime(50);
    script.events = {start(nine), {ClockEventKind::hand_in, nine + Seconds(900)}};
    script.marks = parse_script_line(example(), script.positions, "3 ? 1+2");
    on.change([&](Store::Change& open) { Desk(open).change(script); });
    on.reopen();
    REQUIRE(on.scripts().size() == 2);
    const Script read = on.scripts().front();
    CHECK(to_text(read.id) == to_text(before.id));
    CHECK(read.day == monday - Days{1});
    CHECK(read.extra_time.percent() == 50);
    CHECK(events_of(read) == events_of(script));
    CHECK(to_line(read.marks) == "3 ? 1+2");
    CHECK(events_of(on.scripts().back()).empty());

    on.change([&](Store::Change& open) { Desk(open).remove(script.id); });
    Store::Change change(on.store);
    CHECK_THROWS_WITH(Desk(change).change(script), Catch::Matchers::Contains("is no longer on file"));
}

TEST_CASE("a sitting that is changed has the clock that it is given") {
    OnDesk on;
    const SittingId id = on.log(monday, "3 2 5");
    Sitting sitting = on.store.candidate("me").sittings.at(0).sitting;
    sitting.clock = {start(nine), {ClockEventKind::hand_in, nine + Seconds(900)}};
    const auto line = [&] {
        const Candidate candidate = on.store.candidate("me");
        return to_line(candidate.sittings.at(0).sitting.clock, example(), all_positions(example()));
    };
    on.change([&](Store::Change& open) { open.change_sitting(id, sitting); });
    on.reopen();
    CHECK(line() == to_line(sitting.clock, example(), all_positions(example())));
    sitting.clock.clear();
    on.change([&](Store::Change& open) { open.change_sitting(id, sitting); });
    CHECK(line().empty());
}

TEST_CASE("a paper is not logged on a day on which its script waits for marks") {
    OnDesk on;
    const Script script = on.begin();
    const std::string id = to_text(script.id);
    const std::string why = "sitting " + id + " of made-up on 2026-11-02 is not marked yet";
    CHECK_THROWS_WITH(on.log(monday, "3 2 5"), why);
    CHECK(on.store.candidate("me").sittings.empty());
    const SittingId other = on.log(monday + Days{1}, "3 2 5");
    Sitting moved = on.store.candidate("me").sittings.at(0).sitting;
    moved.day = monday;
    CHECK_THROWS_WITH(on.change([&](Store::Change& open) { open.change_sitting(other, moved); }), why);
    on.change([&](Store::Change& open) { Desk(open).remove(script.id); });
    CHECK_NOTHROW(on.change([&](Store::Change& open) { open.change_sitting(other, moved); }));
}

TEST_CASE("what the computer's clocks showed is on file with an event, and so is which of them counts") {
    OnDesk on;
    Script script = on.begin();
    ClockEvent begun = start(nine);
    begun.reading = ClockReading{nine, Seconds(500), 7};
    on.add_event(script, begun);
    // Ten minutes later by the steady clock, and half an hour by the wall clock: the ten minutes count.
    const ClockReading jumped{nine + Seconds(1800), Seconds(1100), 7};
    on.change([&](Store::Change& open) { Desk(open).settle_clock(script, jumped, nine + Seconds(600)); });
    ClockEvent next{ClockEventKind::go, nine + Seconds(600), 2};
    next.reading = jumped;
    on.add_event(script, next);
    on.reopen();
    script = on.scripts().front();
    REQUIRE(script.events.size() == 2);
    const ClockReading later{nine + Seconds(1860), Seconds(1160), 7};
    CHECK(time_now(script.events[1].at, script.events[1].reading, later).at == nine + Seconds(660));
    on.change([&](Store::Change& open) { Desk(open).take_back_event(script); });
    const TimeNow now = time_now(script.events[0].at, script.events[0].reading, later);
    CHECK(now.at == nine + Seconds(660));
    CHECK_FALSE(now.doubt);
}
