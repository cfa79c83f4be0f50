#include "inkturn/desk/cost.hpp"

#include "catch.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "papers.hpp"

#include <algorithm>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

Cost cost_of(const std::vector<int>& max, const std::string& line) {
    const Paper paper = paper_of(max);
    return cost(paper, parse_line(paper, line));
}

/// A clock whose parts, all of the same allowance, were worked on for these times, one after the other.
Clock worked(Seconds allowance, const std::vector<int>& times) {
    std::vector<ClockPart> parts;
    for (std::size_t i = 0; i < times.size(); ++i)
        parts.push_back({std::to_string(i + 1), Marks(5), allowance});
    Clock clock(std::move(parts));
    Moment now{Seconds(1'000'000)};
    clock.take({ClockEventKind::start, now, 0});
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (i > 0)
            clock.take({ClockEventKind::go, now, i});
        now += Seconds(times[i]);
    }
    clock.take({ClockEventKind::hand_in, now, 0});
    return clock;
}

std::vector<std::size_t> slow(Seconds allowance, const std::vector<int>& times) {
    std::vector<std::size_t> parts;
    for (const SlowPart& one : slow_parts(worked(allowance, times)))
        parts.push_back(one.part);
    return parts;
}

using Positions = std::vector<std::size_t>;

} // namespace

TEST_CASE("marks in overtime, unfinished ones and those of parts not attempted are what pace cost") {
    const Cost sum = cost_of({6, 5, 4}, "1+3 2:unfinished -");
    CHECK(sum.overtime == Marks(3));
    CHECK(sum.unfinished == Marks(3));
    CHECK(sum.not_attempted == Marks(4));
    CHECK(sum.pace() == Marks(10));
    CHECK(sum.knowledge() == Marks(2)); // of the first, no reason being stated
    CHECK(sum.slips() == Marks(0));
}

TEST_CASE("method, recall and what has no reason are what knowledge cost, slips stand apart") {
    const Cost sum = cost_of({6, 5, 4, 3, 2}, "1:method 2:recall 1 2:slip 0:misread");
    CHECK(sum.method == Marks(5));
    CHECK(sum.recall == Marks(3));
    CHECK(sum.unstated == Marks(3));
    CHECK(sum.knowledge() == Marks(11));
    CHECK(sum.slips() == Marks(3));
    CHECK(sum.pace() == Marks(0));
}

TEST_CASE("the reason that is stated for a part not attempted says what cost its marks") {
    CHECK(cost_of({6}, "-:recall").knowledge() == Marks(6));
    CHECK(cost_of({6}, "-:recall").pace() == Marks(0));
    CHECK(cost_of({6}, "-:unfinished").pace() == Marks(6));
}

TEST_CASE("a mark that was corrected was lost all the same") {
    CHECK(cost_of({6}, "2+1+3:method").method == Marks(3));
    CHECK(cost_of({6}, "2+1+3:method").pace() == Marks(1));
}

TEST_CASE("what pace, knowledge and slips cost is all that was not earned in time") {
    std::mt19937 random(20261125);
    const auto below = [&](int end) { return std::uniform_int_distribution<int>(0, end - 1)(random); };
    for (int round = 0; round < 2000; ++round) {
        std::vector<int> max;
        std::vector<PartMarks> parts;
        Marks missing;
        for (int i = below(8) + 1; i > 0; --i) {
            max.push_back(below(12) + 1);
            const Marks most(max.back());
            PartMarks marks;
            if (below(4) > 0) {
                MarksByPhase earned;
                earned.in_time = Marks(below(most.count() + 1));
                earned.overtime = Marks(below((most - earned.in_time).count() + 1));
                earned.corrected = Marks(below((most - earned.in_time - earned.overtime).count() + 1));
                marks = PartMarks(earned, most);
            }
            if (marks.in_time() < most && below(2) == 0)
                marks.state_reason(all_reasons[static_cast<std::size_t>(below(5))], most);
            missing += most - marks.in_time();
            parts.push_back(marks);
        }
        const Cost sum = cost(paper_of(max), parts);
        REQUIRE(sum.pace() + sum.knowledge() + sum.slips() == missing);
    }
}

TEST_CASE("a part is slow from half above its allowance on") {
    CHECK(slow(Seconds(240), {359, 100}).empty());
    CHECK(slow(Seconds(240), {360, 100}) == Positions{0});
}

TEST_CASE("a part is slow from a minute above its allowance on") {
    CHECK(slow(Seconds(72), {131, 10}).empty());
    CHECK(slow(Seconds(72), {132, 10}) == Positions{0});
    CHECK(slow(Seconds(0), {59, 60}) == Positions{1});
}

TEST_CASE("time after the ink changed counts for a slow part too") {
    const Clock clock = worked(Seconds(240), {200, 700});
    const auto found = slow_parts(clock);
    REQUIRE(found.size() == 1);
    CHECK(found[0].part == 1);
    CHECK(found[0].worked == Seconds(700));
}

TEST_CASE("of the slow parts the five farthest above their allowance are told, those first") {
    CHECK(slow(Seconds(100), {500, 200, 900, 500, 300, 100, 400}) == Positions{2, 0, 3, 6, 4});
}
