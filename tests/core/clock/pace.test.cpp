#include "inkturn/clock/pace.hpp"

#include "catch.hpp"
#include "choices.hpp"
#include "inkturn/clock/clock.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "papers.hpp"

#include <vector>

namespace {

using namespace inkturn;
using inkturn::test::paper_of;
using inkturn::test::paper_with_choice;

} // namespace

TEST_CASE("the pace of parts leaves the others out") {
    const Paper paper = paper_of({5, 4, 6});
    const Pace pace = pace_of(paper, ExtraTime(25), std::vector<std::size_t>{0, 2});
    REQUIRE(pace.parts.size() == 2);
    CHECK(pace.parts[1].position == 2);
    CHECK(pace.marks == Marks(11));
    CHECK(pace.length == Seconds(11 * 90));
    CHECK(pace.parts[1].by == Seconds(11 * 90));
    CHECK(pace_of(paper, {}).length == allowance(paper));
}

TEST_CASE("before a choice is made no time depends on it") {
    const Pace open = pace_of(paper_with_choice(), {});
    CHECK(open.has_choice);
    CHECK(open.length == Seconds(32 * 72));
    CHECK(open.parts[2].by == Seconds(12 * 72));
    CHECK_FALSE(open.parts[3].by);
    const Pace made = pace_of(paper_with_choice(), {}, std::vector<std::size_t>{0, 1, 2, 5, 6});
    CHECK_FALSE(made.has_choice);
    CHECK(made.parts.back().by == Seconds(32 * 72));
}

TEST_CASE("a stated duration is that of what counts") {
    const Paper paper = paper_with_choice(Seconds(3200));
    CHECK(allowance(paper) == Seconds(3200));
    CHECK(part_allowances(paper)[5] == Seconds(1000));
    CHECK(pace_of(paper, {}, std::vector<std::size_t>{0, 6}).length == Seconds(1400));
}

TEST_CASE("the clock of some parts has their marks and time alone") {
    const auto paper = paper_of("made-up", {5, 4, 6});
    const Script script =
        blank_script("K07", paper, inkturn::test::day(0), {}, std::vector<std::size_t>{0, 2});
    CHECK_FALSE(script.is_set(1));
    CHECK_FALSE(script.is_marked());
    const Clock clock = clock_of(script);
    CHECK(clock.marks() == Marks(11));
    CHECK(clock.allowance() == Seconds(11 * 72));
    CHECK(clock.parts()[1].allowance == Seconds(0));
}

TEST_CASE("the clock of a choice runs for what counts") {
    const auto paper = std::make_shared<const Paper>(paper_with_choice());
    Script script = blank_script("K07", paper, inkturn::test::day(0), {});
    const Moment start = inkturn::test::day(0);
    script.events = {{ClockEventKind::start, start, 0}};
    for (std::size_t part = 1; part < 7; ++part)
        script.events.push_back({ClockEventKind::go, start + Seconds(60 * static_cast<int>(part)), part});
    script.events.push_back({ClockEventKind::hand_in, start + Seconds(480), 0});
    const Clock clock = clock_of(script);
    CHECK(clock.marks() == Marks(32));
    CHECK(clock.allowance() == Seconds(32 * 72));
    CHECK(clock.expected(Seconds(100000)) == Marks(32));
    CHECK(record_of(clock).reach == Marks(32));

    enter_marks(script, {parse_entry("1=4"), parse_entry("2a=3"), parse_entry("2b=5"), parse_entry("B3a=4"),
                         parse_entry("B3b=6"), parse_entry("B4=2"), parse_entry("B5=9")});
    const Sitting sitting = sitting_of(script);
    CHECK_FALSE(sitting.parts[5].counts());
    const Clock marked = clock_of(*paper, sitting).value();
    CHECK(marked.allowance() == Seconds(32 * 72));
    CHECK(marked.parts()[5].marks == Marks(0));
}
