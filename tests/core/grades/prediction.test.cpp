#include "inkturn/grades/prediction.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/base/error.hpp"
#include "papers.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

Candidate candidate_with(std::vector<SittingRecord> sittings) {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings = std::move(sittings);
    return candidate;
}

std::vector<int> numbers(const Prediction& next) {
    return {next.most.low.count(), next.half.low.count(), next.middle.count(), next.half.high.count(),
            next.most.high.count()};
}

/// The subject, `-` where nothing can be foreseen.
std::string subject(const std::vector<SittingRecord>& sittings, const std::string& asked_for) {
    return predictable_subject(candidate_with(sittings), asked_for).value_or("-");
}

} // namespace

TEST_CASE("a prediction is the share's mean and ranges of 50% and 90%, their ends rounded outwards") {
    // Of a normal distribution: 0.67449 and 1.64485 deviations to each side.
    const UncertainShare share({{1, 0.5, 0.05}});
    CHECK(numbers(prediction(share, Marks(100))) == std::vector<int>{41, 46, 50, 54, 59}); // 41.8, 46.6
    CHECK(numbers(prediction(share, Marks(70))) == std::vector<int>{29, 32, 35, 38, 41});
    CHECK(prediction(share, Marks(70)).total == Marks(70));
    CHECK(prediction(UncertainShare({{1, 0.625, 0.01}}), Marks(20)).middle == Marks(13)); // 12.5
}

TEST_CASE("ranges lie within nothing and everything, the narrow one in the wide one") {
    std::mt19937 dice(5);
    for (int i = 0; i < 500; ++i) {
        const UncertainShare share({{1.0, pick(dice, -20, 120) / 100.0, pick(dice, 1, 80) / 100.0},
                                    {2.0, pick(dice, 0, 100) / 100.0, pick(dice, 1, 30) / 100.0}});
        const int total = pick(dice, 1, 300);
        const Prediction next = prediction(share, Marks(total));
        CAPTURE(i, total);
        REQUIRE(next.most.low <= next.half.low);
        REQUIRE(next.half.low <= next.half.high);
        REQUIRE(next.half.high <= next.most.high);
        REQUIRE(next.most.high <= Marks(total));
        REQUIRE(next.most.low <= next.middle);
        REQUIRE(next.middle <= next.most.high);
        REQUIRE(share.below(1.0 * next.most.low.count() / total) <= 0.05 + 1e-6);
        REQUIRE(share.below(1.0 * next.most.high.count() / total) >= 0.95 - 1e-6);
        REQUIRE(share.below(1.0 * next.half.low.count() / total) <= 0.25 + 1e-6);
        REQUIRE(share.below(1.0 * next.half.high.count() / total) >= 0.75 - 1e-6);
    }
}

TEST_CASE("a prediction needs marks to predict") {
    CHECK_THROWS_AS(prediction(UncertainShare({{1, 0.5, 0.05}}), Marks(0)), Error);
}

TEST_CASE("three papers of one subject, each sat whole, are enough to foresee the next") {
    const auto first = paper_of("pure-a", {60, 40});
    std::vector<SittingRecord> sittings{sat(1, first, "30 20"), sat(2, paper_of("pure-b", {50}), "20"),
                                        sat(3, first, "60 40")};
    CHECK(subject(sittings, "pure") == "-"); // one was sat twice
    sittings.push_back(sat(4, paper_of("pure-c", {60, 40}), "30 not-set"));
    CHECK(subject(sittings, "pure") == "-"); // one was sat in part
    sittings.push_back(sat(5, paper_of("pure-d", {100}), "55"));
    CHECK(subject(sittings, "pure") == "pure");
    CHECK(subject(sittings, "") == "pure");
    CHECK(subject(sittings, "mechanics") == "-");
}

TEST_CASE("papers of several subjects together foresee nothing") {
    std::vector<SittingRecord> sittings{
        sat(1, paper_of("pure-a", {100}), "30"), sat(2, paper_of("pure-b", {50}), "20"),
        sat(3, paper_of("pure-c", {50}), "20"), sat(4, paper_of("mechanics-a", {50}, "mechanics"), "20")};
    CHECK(subject(sittings, "") == "-");
    CHECK(subject(sittings, "pure") == "pure");
    CHECK(subject({}, "") == "-");
    CHECK(subjects_sat_whole(candidate_with(sittings), "") == std::set<std::string>{"mechanics", "pure"});
    CHECK(subjects_sat_whole(candidate_with(sittings), "pure") == std::set<std::string>{"pure"});
}
