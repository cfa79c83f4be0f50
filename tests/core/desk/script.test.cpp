#include "inkturn/desk/script.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/clock/clock_line.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

std::shared_ptr<const Paper> example() {
    return std::make_shared<Paper>(
        PaperHead{"made-up", "", "", std::nullopt, RetryBy::question},
        std::vector<Part>{{"1a", Marks(3), "", ""}, {"1b", Marks(2), "", ""}, {"2", Marks(5), "", ""}});
}

std::vector<std::size_t> all() {
    return all_positions(*example());
}

} // namespace

TEST_CASE("a script's id is a sitting's number or a retry's id") {
    CHECK(to_text(parse_script_id("12")) == "12");
    CHECK(to_text(parse_script_id("12q7")) == "12q7");
    CHECK(to_text(parse_script_id("12q7t2")) == "12q7t2");
    CHECK_FALSE(parse_script_id("12").retry);
    for (const char* text : {"", "0", "-1", "q7", "12q", "twelve", "12 "}) {
        INFO(text);
        CHECK_THROWS_AS(parse_script_id(text), Error);
    }
}

TEST_CASE("marks of a script are a line with a question mark where there are none yet") {
    for (const char* line : {"? ? ?", "3 ? 2+1:slip", "- 2 0+0+5:method"}) {
        INFO(line);
        CHECK(to_line(parse_script_line(*example(), all(), line)) == line);
    }
    for (const char* line : {"", "?", "? ? ? ?", "4 ? ?", "? ? ?:slip", "??  ?"}) {
        INFO(line);
        CHECK_THROWS_AS(parse_script_line(*example(), all(), line), Error);
    }
}

TEST_CASE("a script is marked once every part is") {
    Script script = blank_script("me", example(), monday, {});
    CHECK_FALSE(script.is_marked());
    script.marks = parse_script_line(*example(), all(), "3 2 ?");
    CHECK_FALSE(script.is_marked());
    script.marks = parse_script_line(*example(), all(), "3 2 -");
    REQUIRE(script.is_marked());
    CHECK(to_line(sitting_of(script).parts) == "3 2 -");
}

TEST_CASE("a script is handed in by the last event of its clock") {
    Script script = blank_script("me", example(), monday, {});
    CHECK_FALSE(script.is_handed_in());
    script.events = parse_clock_line(*example(), all(), "1793610000 start 1a");
    CHECK_FALSE(script.is_handed_in());
    script.events = parse_clock_line(*example(), all(), "1793610000 start 1a,1793610600 hand in");
    CHECK(script.is_handed_in());
}

TEST_CASE("marks are entered for the parts that are named, in place of what stood there") {
    Script script = blank_script("me", example(), monday, {});
    enter_marks(script, {parse_entry("2=4+1"), parse_entry("1b=1:slip")});
    CHECK(to_line(script.marks) == "? 1:slip 4+1");
    enter_marks(script, {parse_entry("1b=2")});
    CHECK(to_line(script.marks) == "? 2 4+1");
    CHECK_THROWS_AS(enter_marks(script, {parse_entry("3=1")}), Error);
    CHECK_THROWS_AS(enter_marks(script, {parse_entry("1a=4")}), Error);
    CHECK(to_line(script.marks) == "? 2 4+1");
}

TEST_CASE("the clock of a re-attempt has the allowances that the parts have in the paper") {
    Candidate candidate;
    candidate.code = "me";
    SittingRecord record;
    record.id = SittingId{12};
    record.paper = example();
    record.sitting = {monday, ExtraTime(50), parse_line(*example(), "0 0 5"), {}};
    candidate.sittings.push_back(record);
    const Script script =
        blank_script(candidate, {SittingId{12}, "1", 1}, monday + Days{14}, monday + Days{14});
    CHECK(script.candidate == "me");
    CHECK(script.day == monday + Days{14});
    CHECK(script.extra_time.percent() == 50);
    const Clock clock = clock_of(script);
    REQUIRE(clock.parts().size() == 2);
    CHECK(clock.parts()[1].label == "1b");
    CHECK(clock.allowance() == Seconds(540)); // 5 marks, 72 s each and half as much again
    CHECK_THROWS_AS(blank_script(candidate, {SittingId{12}, "2", 1}, monday + Days{14}, monday + Days{14}),
                    Error);
}

TEST_CASE("a clock's events are one line, and back") {
    for (const std::string line :
         {"", "1793610000 start 1a", "1793610000 start 2,1793610060 rest,1793610070 work,1793610080 hand in",
          "-86400 start 1a,-86400 go 1b,0 hand in",
          "1793610000/48231/9f3a01bc start 2,1793610060/48291/9f3a01bc/-1200 rest,1793610070/-5/0/3 work"}) {
        INFO(line);
        CHECK(to_line(parse_clock_line(*example(), all(), line), *example(), all()) == line);
    }
}

TEST_CASE("a line that a clock could not have written is refused") {
    for (const char* line :
         {"1793610000", "1793610000 ", "start 1a", "1793610000 start", "1793610000 start 9",
          "1793610000 pause", "1793610000 rest", "1793610000 start 1a,",
          "1793610000 start 1a,1793609999 go 2", "1793610000 start 1a,1793610001 rest 2",
          "1793610000 start 1a,1793610001 hand in,1793610002 rest", "99999999999999 start 1a",
          "999999999999999999999 start 1a", "1793610000/48231 start 1a", "1793610000/48231/xyz start 1a",
          "1793610000/48231/100000000 start 1a", "1793610000/48231/1/ start 1a",
          "1793610000/48231/1/2/3 start 1a", "1793610000/9999999999999/1 start 1a"}) {
        INFO(line);
        CHECK_THROWS_AS(parse_clock_line(*example(), all(), line), Error);
    }
}

TEST_CASE("a question's clock knows only the question's parts") {
    const std::vector<std::size_t> question{0, 1};
    CHECK_NOTHROW(parse_clock_line(*example(), question, "0 start 1b"));
    CHECK_THROWS_AS(parse_clock_line(*example(), question, "0 start 2"), Error);
}
