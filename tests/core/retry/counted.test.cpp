#include "inkturn/retry/candidate.hpp"

#include "candidates.hpp"
#include "catch.hpp"
#include "choices.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/grades/standing.hpp"
#include "inkturn/practice/draw.hpp"
#include "inkturn/retry/turn_outcome.hpp"
#include "inkturn/statistics/diagnosis.hpp"
#include "inkturn/statistics/trend.hpp"
#include "papers.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

const auto chosen = std::make_shared<const Paper>(paper_with_choice());

Candidate with(std::vector<SittingRecord> sittings) {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings = std::move(sittings);
    return candidate;
}

/// `12q2 (2b) 5:00`, for each open retry.
std::string retries_of(const Candidate& candidate, int today) {
    std::string text;
    for (const Retry& retry : retries_to_place(candidate, day(today))) {
        text += to_text(retry.id) + " (";
        for (const std::size_t part : retry.paper_question().parts)
            text += retry.paper->part(part).label;
        text += ") " + std::to_string(retry.allowance.count()) + "; ";
    }
    return text;
}

} // namespace

TEST_CASE("what was not set or not chosen makes no retry") {
    CHECK(retries_of(with({sat(1, chosen, 0, "4 3 2 not-set not-set 9 not-set")}), 1) ==
          "1q2 (2a2b) 576; 1qB4 (B4) 720; ");
    CHECK(retries_of(with({sat(1, chosen, 0, "4 3 5 1 2 9 8")}), 1) == "1qB4 (B4) 720; 1qB5 (B5) 720; ");
    CHECK(retries_of(with({sat(1, chosen, 0, "4 3 5 - - 10 -")}), 1).empty());
}

TEST_CASE("a retry asks for the parts that counted") {
    Candidate candidate = with({sat(1, chosen, 0, "not-set not-set 2 not-set not-set not-set not-set")});
    CHECK(retries_of(candidate, 1) == "1q2 (2b) 360; ");
    const Reattempt done = take(candidate, "1q2", "2b=5", 15, 15);
    CHECK(to_line(done.parts) == "not-set 5");
    CHECK_THROWS_WITH(take(candidate, "1q2", "2a=3", 15, 15), Contains("2a does not belong"));
    candidate.sittings[0].reattempts.push_back(done);
    CHECK(retries_of(candidate, 16).empty());
}

TEST_CASE("a re-attempt may leave out what was got, not what was missed") {
    const Candidate candidate = with({sat(1, chosen, 0, "4 3 2 - - 10 10")});
    const auto tried = [&](const std::string& only) {
        return parts_tried(candidate, parse_retry_id("1q2"), positions_named(*chosen, only), day(15),
                           day(15));
    };
    CHECK(tried("2b") == std::vector<std::size_t>{2});
    CHECK(tried("2") == std::vector<std::size_t>{1, 2});
    CHECK_THROWS_WITH(tried("2a"), Contains("2b was missed"));
    CHECK_THROWS_WITH(tried("1,2b"), Contains("part 1 is not what retry 1q2 asks for"));
}

TEST_CASE("a re-attempt that left out a part missed has not got the question") {
    const Candidate candidate = with({sat(1, chosen, 0, "4 1 2 - - 10 10")});
    const Question& question = chosen->question(1);
    Reattempt reattempt{"2", 1, day(15), {PartMarks::not_set(), full_marks(Marks(5))}};
    const auto got = [&] {
        return outcomes(*chosen, question, candidate.sittings[0].sitting, {reattempt}).back().got;
    };
    CHECK_FALSE(got());
    const auto open = turn_to_follow(*chosen, question, candidate.sittings[0].sitting, {reattempt});
    REQUIRE(open);
    CHECK(open->missed_marks == Marks(2));
    reattempt.parts[0] = full_marks(Marks(3));
    CHECK(got());
}

TEST_CASE("a sitting can't be changed so that a re-attempt left out what was missed") {
    Candidate candidate = with({sat(1, chosen, 0, "4 3 2 - - 10 10")});
    candidate.sittings[0].reattempts.push_back(
        {"2", 1, day(15), {PartMarks::not_set(), full_marks(Marks(5))}});
    Sitting sitting = candidate.sittings[0].sitting;
    sitting.parts = parse_line(*chosen, "4 1 2 - - 10 10");
    CHECK_THROWS_WITH(check_can_replace(*chosen, sitting, candidate.sittings[0], day(20)),
                      Contains("2a would be missed"));
    sitting.parts = parse_line(*chosen, "4 3 not-set - - 10 10");
    CHECK_THROWS_WITH(check_can_replace(*chosen, sitting, candidate.sittings[0], day(20)),
                      Contains("would no longer be missed"));
}

TEST_CASE("a later sitting of some parts replaces no retry of the others") {
    const SittingRecord whole = sat(1, chosen, 0, "3 1 2 - - 9 10");
    const auto then = [&](const std::string& line) {
        return retries_of(with({whole, sat(2, chosen, 5, line)}), 6);
    };
    const std::string others = "1qB4 (B4) 720; ";
    CHECK(then("4 not-set not-set not-set not-set not-set not-set") == "1q2 (2a2b) 576; " + others);
    CHECK(then("2 not-set not-set not-set not-set not-set not-set") ==
          "1q2 (2a2b) 576; " + others + "2q1 (1) 288; ");
    CHECK(then("not-set 3 not-set not-set not-set not-set not-set") ==
          "1q1 (1) 288; 1q2 (2a2b) 576; " + others);
    CHECK(then("not-set 3 5 not-set not-set not-set not-set") == "1q1 (1) 288; " + others);
    CHECK(then("4 3 5 - - 10 10").empty());
}

TEST_CASE("topics rest on the first attempt at each part, where it counted") {
    const auto unseen = unseen_marks(with({sat(1, chosen, 0, "3 not-set 2 4 6 9 10"),
                                           sat(2, chosen, 5, "4 3 not-set not-set not-set 10 not-set")}));
    REQUIRE(unseen.size() == 2);
    const std::vector<TopicDiagnosis> topics = diagnose({unseen});
    REQUIRE(topics.size() == 1);
    CHECK(topics[0].marks == Marks(4 + 5 + 10 + 10 + 3));
    CHECK(topics[0].unaided() == Marks(3 + 2 + 10 + 10 + 3));
}

TEST_CASE("a trend's shares are of what counted") {
    const Trend all = trend(with({sat(1, chosen, 0, "2 not-set not-set not-set not-set not-set not-set")}));
    REQUIRE(all.sittings.size() == 1);
    CHECK(all.sittings[0].totals.max == Marks(4));
    CHECK(all.sittings[0].reach == Marks(4));
    CHECK(all.sittings[0].allowance == Seconds(4 * 72));
}

TEST_CASE("a standing compares whole sittings alone") {
    const BoundarySet set{"June", "pure", Marks(32), {{"A", Marks(24)}}};
    const SittingRecord part = sat(2, chosen, 5, "4 3 5 not-set not-set not-set not-set");
    const BoundarySet of_part{"Part", "pure", Marks(12), {{"A", Marks(10)}}};
    CHECK_FALSE(basis_for(set, with({part})));
    CHECK_FALSE(basis_for(of_part, with({part})));
    CHECK(standing_in("", with({part}), {set}).in_part == 1);

    const Candidate both = with({sat(1, chosen, 0, "4 3 5 - - 9 1"), part});
    REQUIRE(basis_for(set, both));
    CHECK(basis_for(set, both)->totals.unaided() == Marks(22));
    CHECK(standing_in("", both, {set}).in_part == 1);
    CHECK_FALSE(predictable_subject(both, "pure")); // one whole sitting
}

TEST_CASE("a question that was not set is unseen") {
    const Candidate candidate = with({sat(1, chosen, 0, "4 not-set not-set 4 6 10 9")});
    const Stock stock = drawable({chosen}, {}, candidate, {}, {}, day(1));
    REQUIRE(stock.questions.size() == 1);
    CHECK(stock.questions[0].paper_question().label == "2");
    CHECK_FALSE(stock.questions[0].got_on);
    const std::vector<Drawable> drawn = draw(stock, {}, Seconds(6000), day(1));
    CHECK(drawn.size() == 1);
}

TEST_CASE("what is drawn from a choice counts in full") {
    const Stock stock = drawable({chosen}, {}, with({}), {}, {}, day(1));
    CHECK(stock.questions.size() == 5);
    CHECK(drawn_paper({"drawn", "", "", {}, RetryBy::question}, stock.questions).marks() == Marks(42));
}
