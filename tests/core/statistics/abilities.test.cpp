#include "inkturn/statistics/abilities.hpp"

#include "catch.hpp"
#include "evidences.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <vector>

using namespace inkturn;
using Catch::Matchers::WithinAbs;
using namespace inkturn::test;

namespace {

/// Candidates who did papers of eight parts of 4 marks on four topics, all with the same marks in a part.
Evidence alike_in(std::size_t candidates, std::size_t papers, int earned) {
    Evidence evidence;
    evidence.candidates = candidates;
    evidence.topics = 4;
    for (std::size_t part = 0; part < 8 * papers; ++part)
        evidence.parts.push_back({Marks(4), part % 4});
    for (std::size_t candidate = 0; candidate < candidates; ++candidate)
        for (std::size_t part = 0; part < 8 * papers; ++part)
            evidence.results.push_back({candidate, part, Marks(earned), static_cast<double>(part / 8)});
    return evidence;
}

double width(const Interval& interval) {
    return interval.high - interval.low;
}

} // namespace

TEST_CASE("full marks everywhere leave a range") {
    for (const std::size_t candidates : {1U, 12U}) {
        const Abilities abilities(alike_in(candidates, 1, 4));
        const UncertainShare share = abilities.of(0).on_topic(0);
        CHECK(width(share.range(0.8)) > 0.01);
        CHECK(share.mean() > 0.85);
        CHECK(share.range(0.8).high <= 1);
    }
}

TEST_CASE("a fit tells how far it is, from little to all of it") {
    std::vector<double> shares;
    const Abilities abilities(alike_in(8, 2, 3), [&](double share) { shares.push_back(share); });
    REQUIRE(shares.size() > 12); // the last of them are the spread's
    CHECK(shares.front() < 0.1);
    CHECK(std::is_sorted(shares.begin(), shares.end()));
    CHECK_THAT(shares.back(), WithinAbs(1, 1e-12));
}

TEST_CASE("no marks anywhere leave a range") {
    const Abilities abilities(alike_in(3, 1, 0));
    CHECK(width(abilities.of(0).on_topic(0).range(0.8)) > 0.01);
    CHECK(abilities.of(0).on_topic(0).mean() < 0.2);
}

TEST_CASE("without any marks the level is the usual one") {
    Evidence evidence;
    evidence.candidates = 1;
    evidence.topics = 1;
    const Abilities abilities(evidence);
    CHECK(abilities.candidates() == 0);
    CHECK_THAT(abilities.of(0).on_topic(0).mean(), WithinAbs(0.57, 0.05));
    CHECK(width(abilities.of(0).on_topic(0).range(0.8)) > 0.5);
}

TEST_CASE("more papers narrow a range") {
    double before = 1;
    for (const std::size_t papers : {1U, 2U, 5U}) {
        const Abilities abilities(alike_in(1, papers, 2));
        const double now = width(abilities.of(0).on_topic(1).range(0.8));
        CHECK(now < before);
        before = now;
    }
}

TEST_CASE("a candidate's other topics and others' marks say something about a topic not done") {
    Evidence evidence = alike_in(8, 2, 3);
    auto& results = evidence.results;
    for (Evidence::Result& result : results)
        if (result.candidate == 7)
            result.earned = Marks(1);
    results.erase(std::remove_if(results.begin(), results.end(),
                                 [&](const Evidence::Result& result) {
                                     return result.candidate == 7 && evidence.parts[result.part].topic == 0U;
                                 }),
                  results.end());
    const Abilities abilities(evidence);
    CHECK(abilities.of(7).on_topic(0).mean() < 0.5);
    CHECK(abilities.of(6).on_topic(0).mean() > 0.65);
    CHECK(width(abilities.of(7).on_topic(0).range(0.8)) > width(abilities.of(7).on_topic(1).range(0.8)));
}

TEST_CASE("a weak topic is seen beside strong ones") {
    Evidence evidence = alike_in(1, 3, 4);
    for (Evidence::Result& result : evidence.results)
        if (evidence.parts[result.part].topic == 2U)
            result.earned = Marks(1);
    const Abilities abilities(evidence);
    CHECK(abilities.of(0).on_topic(2).below(0.8) > 0.95);
    CHECK(abilities.of(0).on_topic(0).below(0.8) < 0.3);
}

TEST_CASE("a part that all did badly is hard, and not its topic alone") {
    Evidence evidence = alike_in(10, 2, 3);
    for (Evidence::Result& result : evidence.results)
        if (result.part == 4)
            result.earned = Marks(0);
    const Abilities abilities(evidence);
    CHECK(abilities.part_ease(4).value() < -0.3);
    CHECK(abilities.part_ease(0).value() > -0.1);
    CHECK(abilities.of(0).in_part(4) < abilities.of(0).in_part(0) - 0.3);
    CHECK(abilities.of(0).on_topic(0).mean() > 0.5);
}

TEST_CASE("nothing is said of how hard a part is that one candidate did") {
    CHECK_FALSE(Abilities(alike_in(1, 1, 2)).part_ease(0));
}

TEST_CASE("the order of results makes no difference") {
    std::mt19937 dice(164);
    Evidence evidence = dealt_evidence(dice, 7, 4, 3);
    const Abilities before(evidence);
    std::shuffle(evidence.results.begin(), evidence.results.end(), dice);
    const Abilities after(evidence);
    for (std::size_t candidate = 0; candidate < evidence.candidates; ++candidate)
        for (std::size_t topic = 0; topic < evidence.topics; ++topic)
            CHECK_THAT(after.of(candidate).on_topic(topic).mean(),
                       WithinAbs(before.of(candidate).on_topic(topic).mean(), 1e-6));
}

TEST_CASE("the model settles on whatever marks there are") {
    std::mt19937 dice(165);
    for (int round = 0; round < 150; ++round) {
        const Evidence evidence =
            dealt_evidence(dice, static_cast<std::size_t>(pick(dice, 1, 9)),
                           static_cast<std::size_t>(pick(dice, 1, 6)), pick(dice, 1, 5));
        const Abilities abilities(evidence);
        for (std::size_t topic = 0; topic < evidence.topics; ++topic) {
            const Interval range = abilities.of(0).on_topic(topic).range(0.8);
            CHECK(range.low >= 0);
            CHECK(range.low < range.high);
            CHECK(range.high <= 1);
        }
    }
}

TEST_CASE("a new paper's total is known no better than its parts allow") {
    const Abilities abilities(alike_in(6, 3, 2));
    const std::vector<Evidence::Part> short_paper(2, {Marks(4), 0});
    const std::vector<Evidence::Part> long_paper(40, {Marks(4), 0});
    const double of_short = width(abilities.of(0).in_paper(short_paper).range(0.9));
    const double of_long = width(abilities.of(0).in_paper(long_paper).range(0.9));
    CHECK(of_long < of_short);
    CHECK_THAT(abilities.of(0).in_paper(long_paper).mean(), WithinAbs(0.5, 0.06));
}

TEST_CASE("evidence that can't be is refused") {
    Evidence evidence = alike_in(2, 1, 2);
    evidence.results.push_back(evidence.results.front());
    CHECK_THROWS_AS(Abilities(evidence), Error);
    evidence.results.back().part = 99;
    CHECK_THROWS_AS(Abilities(evidence), Error);
    evidence.results.pop_back();
    evidence.results.back().earned = Marks(5);
    CHECK_THROWS_AS(Abilities(evidence), Error);
    CHECK_THROWS_AS(Abilities(alike_in(2, 1, 2)).of(2), Error);
    CHECK_THROWS_AS(Abilities(alike_in(2, 1, 2)).of(0).on_topic(4), Error);
}
