#include "inkturn/clock/allowance.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/base/error.hpp"
#include "papers.hpp"

#include <cstdint>
#include <numeric>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// Three questions of up to four parts each, with or without a stated duration.
Paper random_paper(std::mt19937& dice) {
    std::vector<Part> parts;
    for (int number = 1; number <= pick(dice, 1, 9); ++number)
        for (int sub = 0; sub < pick(dice, 1, 4); ++sub)
            parts.push_back(
                {std::to_string(number) + static_cast<char>('a' + sub), Marks(pick(dice, 1, 17)), "", ""});
    std::optional<Seconds> duration;
    if (pick(dice, 0, 1) == 1)
        duration = Seconds(pick(dice, 60, 14400));
    return Paper({"made-up", "", "", duration, pick(dice, 0, 1) == 1 ? RetryBy::question : RetryBy::part},
                 parts);
}

Seconds sum_of(const std::vector<Seconds>& times) {
    return std::accumulate(times.begin(), times.end(), Seconds(0));
}

} // namespace

TEST_CASE("a mark buys 72 seconds where the paper states no duration") {
    const Paper paper = paper_of({5, 4, 8});
    CHECK(allowance(paper) == Seconds(1224));
    CHECK(checkpoints(paper) == std::vector<Seconds>{Seconds(360), Seconds(648), Seconds(1224)});
    CHECK(part_allowances(paper) == std::vector<Seconds>{Seconds(360), Seconds(288), Seconds(576)});
}

TEST_CASE("a stated duration is divided over the parts in proportion to their marks") {
    const Paper paper = paper_of({1, 1, 1}, Seconds(100));
    CHECK(allowance(paper) == Seconds(100));
    CHECK(checkpoints(paper) == std::vector<Seconds>{Seconds(33), Seconds(67), Seconds(100)});
    CHECK(part_allowances(paper) == std::vector<Seconds>{Seconds(33), Seconds(34), Seconds(33)});
}

TEST_CASE("half a second rounds up") {
    CHECK(checkpoints(paper_of({1, 1}, Seconds(61))) == std::vector<Seconds>{Seconds(31), Seconds(61)});
    CHECK(allowance(paper_of({1}, Seconds(150)), ExtraTime(25)) == Seconds(188)); // 187.5
}

TEST_CASE("extra time lengthens every checkpoint by its percentage") {
    const Paper paper = paper_of({1, 2});
    CHECK(allowance(paper, ExtraTime(25)) == Seconds(270));
    CHECK(checkpoints(paper, ExtraTime(25)) == std::vector<Seconds>{Seconds(90), Seconds(270)});
    CHECK(checkpoints(paper, ExtraTime(1)) ==
          std::vector<Seconds>{Seconds(73), Seconds(218)}); // 72.72, 218.16
    CHECK(allowance(paper, ExtraTime(100)) == Seconds(432));
    CHECK(allowance(paper, ExtraTime()) == allowance(paper));
}

TEST_CASE("extra time is 0 to 100 percent") {
    CHECK(ExtraTime(0).percent() == 0);
    CHECK(ExtraTime(100).percent() == 100);
    CHECK_THROWS_WITH(ExtraTime(-1), "extra time is 0 to 100 percent, not -1");
    CHECK_THROWS_AS(ExtraTime(101), Error);
}

TEST_CASE("a question's allowance is that of all its parts, wherever they stand") {
    const Paper paper({"made-up", "", "", {}, RetryBy::question},
                      {{"1a", Marks(2), "", ""}, {"2", Marks(5), "", ""}, {"1b", Marks(3), "", ""}});
    REQUIRE(paper.questions().size() == 2);
    CHECK(question_allowance(paper.questions()[0], part_allowances(paper)) == Seconds(360));
    CHECK(question_allowance(paper.questions()[1], part_allowances(paper)) == Seconds(360));
}

TEST_CASE("the largest paper's allowance does not overflow") {
    std::vector<Part> parts;
    for (int number = 1; number <= 500; ++number)
        parts.push_back({std::to_string(number), max_part_marks, "", ""});
    const Paper by_marks({"made-up", "", "", {}, RetryBy::question}, parts);
    CHECK(allowance(by_marks, ExtraTime(100)) == Seconds(36'000'000));
    const Paper stated({"made-up", "", "", Seconds(86400), RetryBy::question}, parts);
    CHECK(allowance(stated, ExtraTime(100)) == Seconds(172800));
    CHECK(sum_of(part_allowances(stated, ExtraTime(100))) == Seconds(172800));
}

TEST_CASE("parts and questions sum to the paper's allowance, at any extra time") {
    std::mt19937 dice(20261125);
    for (int round = 0; round < 120; ++round) {
        const Paper paper = random_paper(dice);
        for (int percent = 0; percent <= ExtraTime::max_percent; ++percent) {
            const ExtraTime extra(percent);
            const auto times = checkpoints(paper, extra);
            const auto pieces = part_allowances(paper, extra);
            Seconds by_question{0};
            for (const Question& question : paper.questions())
                by_question += question_allowance(question, part_allowances(paper, extra));

            // Each checkpoint against its exact value: at most half a second off.
            const std::int64_t all =
                paper.duration() ? paper.duration()->count() : 72 * paper.marks().count();
            const std::int64_t whole = std::int64_t{100} * paper.marks().count();
            bool near = true;
            std::int64_t reached = 0;
            for (std::size_t i = 0; i < times.size(); ++i) {
                reached += paper.parts()[i].max.count();
                const std::int64_t off = times[i].count() * whole - all * (100 + percent) * reached;
                near = near && 2 * off <= whole && 2 * off > -whole;
            }
            if (near && sum_of(pieces) == allowance(paper, extra) && by_question == sum_of(pieces) &&
                times.back() == allowance(paper, extra))
                continue;
            CAPTURE(round, percent);
            FAIL("parts, questions and checkpoints do not agree with the paper's allowance");
        }
    }
    SUCCEED();
}

TEST_CASE("papers have half a minute to three minutes a mark") {
    CHECK_FALSE(is_usual_time(Seconds(299), Marks(10)));
    CHECK(is_usual_time(Seconds(300), Marks(10)));
    CHECK(is_usual_time(Seconds(1800), Marks(10)));
    CHECK_FALSE(is_usual_time(Seconds(1801), Marks(10)));
}
