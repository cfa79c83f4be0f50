#include "view/text/marking.hpp"

#include "catch.hpp"
#include "inkturn/paper/codes.hpp"

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

const Part plain{"2a", Marks(4), "", ""};
const Part coded{"2a", Marks(4), "", "M1 A1 B2"};

PartOnClock seen(int in_time, int overtime) {
    return {in_time > 0, overtime > 0, {Seconds(in_time), Seconds(overtime)}, Seconds(288)};
}

std::string text_with(const PartOnClock& part_on_clock) {
    return marking_text(plain, &part_on_clock, std::nullopt);
}

} // namespace

TEST_CASE("a part to mark says its maximum, and its codes if there are any") {
    CHECK(marking_text(plain, nullptr, std::nullopt) == "Part 2a, 4 marks.");
    CHECK(marking_text(coded, nullptr, std::nullopt) == "Part 2a, 4 marks: M1 A1 B2.");
    CHECK(marking_text({"1", Marks(1), "", ""}, nullptr, std::nullopt) == "Part 1, 1 mark.");
}

TEST_CASE("a part to mark says in which ink the clock saw it, and for how long") {
    CHECK(text_with(seen(310, 0)) == "Part 2a, 4 marks. In time 5:10 of 4:48.");
    CHECK(text_with(seen(0, 310)) == "Part 2a, 4 marks. Overtime 5:10 of 4:48.");
    CHECK(text_with(seen(310, 65)) == "Part 2a, 4 marks. In time 5:10, then overtime 1:05, of 4:48.");
    CHECK(text_with(seen(0, 0)) == "Part 2a, 4 marks. No time spent on it.");
}

TEST_CASE("a part to mark says which marks it has so far") {
    CHECK(marking_text(plain, nullptr, parse_part_marks("2+1:slip", Marks(4))) ==
          "Part 2a, 4 marks. So far 2+1:slip.");
    CHECK(marking_text(coded, nullptr, marks_from_codes("M1A0B1+A1", coded, Phase::in_time)) ==
          "Part 2a, 4 marks: M1 A1 B2. So far 2+1 (M1 A1 B1).");
    CHECK(marking_text(plain, nullptr, PartMarks{}) == "Part 2a, 4 marks. So far -.");
}

TEST_CASE("a part with many codes is shown in lines that fit") {
    std::string codes = "M1";
    for (int i = 1; i < 32; ++i)
        codes += " A1";
    for (const std::size_t width : {std::size_t{80}, std::size_t{40}}) {
        std::istringstream text(marking_text({"2a", Marks(32), "", codes}, nullptr, std::nullopt, width));
        std::size_t widest = 0;
        for (std::string line; std::getline(text, line);)
            widest = std::max(widest, line.size());
        CHECK(widest <= width);
        CHECK(widest > width - 5);
    }
}

TEST_CASE("marks are shown by ink") {
    CHECK(inks_text(parse_part_marks("2+0+1", Marks(4))) == "2 in time, 1 corrected");
    CHECK(inks_text(parse_part_marks("0+3", Marks(4))) == "3 overtime");
    CHECK(inks_text(parse_part_marks("0", Marks(4))) == "nothing earned");
    CHECK(inks_text(PartMarks{}) == "not attempted");
}

TEST_CASE("always says what pace and knowledge cost, and slips if there are any") {
    Cost sum;
    CHECK(cost_text(sum) == "Pace cost nothing.\nKnowledge cost nothing.\n");
    sum.overtime = Marks(3);
    sum.not_attempted = Marks(2);
    sum.recall = Marks(1);
    sum.misread = Marks(2);
    CHECK(cost_text(sum) == "Pace cost 5 marks: 3 in overtime, 2 not attempted.\n"
                            "Knowledge cost 1 mark: 1 to recall.\n"
                            "Slips cost 2 marks: 2 to misreading.\n");
}

TEST_CASE("slow parts are shown with both times") {
    Clock clock({{"1", Marks(2), Seconds(144)}, {"2", Marks(3), Seconds(216)}});
    const Moment start{Seconds(0)};
    clock.take({ClockEventKind::start, start, 0});
    clock.take({ClockEventKind::go, start + Seconds(300), 1});
    Clock on_time = clock;
    on_time.take({ClockEventKind::hand_in, start + Seconds(400), 0});
    CHECK(slow_text(on_time) == "Slow: part 1 took 5:00 instead of 2:24");
    clock.take({ClockEventKind::hand_in, start + Seconds(4000), 0});
    CHECK(slow_text(clock) == "Slow: part 2 took 1:01:40 instead of 3:36, part 1 took 5:00 instead of 2:24");
    CHECK(slow_text(Clock({{"1", Marks(2), Seconds(144)}})).empty());
}
