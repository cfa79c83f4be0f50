#include "inkturn/grades/class_standing.hpp"

#include "boundary_set.hpp"
#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/grades/standing.hpp"
#include "inkturn/retry/latest.hpp"
#include "papers.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

Candidate candidate(const std::string& code, std::vector<SittingRecord> sittings) {
    Candidate candidate;
    candidate.code = code;
    candidate.sittings = std::move(sittings);
    return candidate;
}

const auto pure_a = paper_of("pure-a", {10, 10});

std::vector<Candidate> three() {
    return {candidate("K01", {sat(1, pure_a, "8 2+4")}), candidate("K02", {sat(1, pure_a, "5 5+0+3")}),
            candidate("K03", {sat(1, pure_a, "3 5")})};
}

/// Of two parts the standard error is the standard deviation of their difference: of 2, 0, -2, 2 and -2 it
/// is 2.
std::vector<Candidate> five() {
    std::vector<Candidate> candidates = three();
    candidates.push_back(candidate("K04", {sat(1, pure_a, "10 8")}));
    candidates.push_back(candidate("K05", {sat(1, pure_a, "0 2")}));
    return candidates;
}

/// `own/in time` a grade, the last for those below the lowest.
std::string reached(const ClassUnder& under) {
    const auto text = [](const ClassCount& count) {
        return std::to_string(count.unaided) + "/" + std::to_string(count.in_time) + " ";
    };
    std::string all;
    for (const GradeCount& grade : under.grades)
        all += text(grade.reached);
    return all + text(under.below);
}

std::string or_better(const ClassUnder& under) {
    std::string all;
    for (const GradeCount& grade : under.grades)
        all += std::to_string(grade.or_better.unaided) + "/" + std::to_string(grade.or_better.in_time) + " ";
    return all;
}

/// `K01 A -1`, joined by commas.
std::string near(const ClassUnder& under) {
    std::string all;
    for (const NearBoundary& one : under.near)
        all += (all.empty() ? "" : ", ") + one.candidate + " " + under.set.grades[one.boundary].grade + " " +
               std::to_string(one.above.count());
    return all;
}

ClassUnder under(const std::vector<Candidate>& candidates, const BoundarySet& set) {
    const auto all = class_standing(candidates, {set});
    REQUIRE(all.size() == 1);
    return all.front();
}

} // namespace

TEST_CASE("under each set a grade is counted by unaided marks and by those in time") {
    const auto all = class_standing(three(), {set_of("2019", 20, {{"A", 14}, {"B", 10}, {"C", 9}}),
                                              set_of("2020", 20, {{"A", 15}, {"B", 11}, {"C", 2}})});
    REQUIRE(all.size() == 2);
    CHECK(all[0].set.name == "2019");
    CHECK(reached(all[0]) == "1/0 1/2 0/0 1/1 ");
    CHECK(or_better(all[0]) == "1/0 2/2 2/2 ");
    CHECK(reached(all[1]) == "0/0 1/0 2/3 0/0 ");
    CHECK(all[0].counted == 3);
    CHECK(all[0].not_counted() == 0);
}

TEST_CASE("who has no marks that fit a set's total is counted apart") {
    auto candidates = three();
    candidates.push_back(candidate("K04", {sat(1, paper_of("pure-b", {10, 20}), "10 20")}));
    candidates.push_back(candidate("K05", {}));
    const ClassUnder some = under(candidates, set_of("2019", 20, {{"A", 14}}));
    CHECK(some.counted == 3);
    CHECK(some.not_counted() == 2);
    CHECK(reached(some) == "1/0 2/3 ");

    const ClassUnder none = under(candidates, set_of("2019", 62, {{"A", 14}}));
    CHECK(none.counted == 0);
    CHECK(none.not_counted() == 5);
    CHECK(reached(none) == "0/0 0/0 ");
    CHECK(none.bases.empty());
    CHECK(none.near.empty());
}

TEST_CASE("near a boundary is who lies at most the standard error from it, above or below") {
    const ClassUnder all = under(five(), set_of("2019", 20, {{"A", 16}, {"B", 7}}));
    REQUIRE(all.bases.size() == 1);
    CHECK(all.bases[0].candidates == 5);
    CHECK_THAT(all.bases[0].standard_error.value(), WithinAbs(2, 1e-12));
    CHECK(near(all) == "K03 B 1, K01 A -2, K04 A 2"); // the nearest first
    CHECK(all.near[0].unaided == Marks(8));
    CHECK(all.near[0].basis == 0);
    CHECK(near(under(five(), set_of("2019", 20, {{"A", 17}, {"B", 8}}))) == "K03 B 0, K04 A 1, K02 B 2");
}

TEST_CASE("a candidate who lies just the standard error from a boundary is near it, whatever the rounding") {
    const std::vector<Candidate> candidates{
        candidate("K01", {sat(1, pure_a, "9 5")}), candidate("K02", {sat(1, pure_a, "8 5")}),
        candidate("K03", {sat(1, pure_a, "8 6")}), candidate("K04", {sat(1, pure_a, "5 1")}),
        candidate("K05", {sat(1, pure_a, "4 2")})};
    const ClassUnder all = under(candidates, set_of("2019", 20, {{"A", 15}}));
    REQUIRE_THAT(all.bases.at(0).standard_error.value(), WithinAbs(1, 1e-12));
    CHECK(near(all) == "K01 A -1, K03 A -1");
}

TEST_CASE("the nearest boundary is given, the upper if tied, and candidates as near are in order of code") {
    auto candidates = five();
    std::reverse(candidates.begin(), candidates.end());
    CHECK(near(under(candidates, set_of("2019", 20, {{"A", 15}, {"B", 13}, {"C", 9}, {"D", 7}}))) ==
          "K01 A -1, K02 C 1, K03 C -1");
}

TEST_CASE("the standard error of a paper is that of all who sat it, by each one's latest sitting") {
    auto candidates = five();
    candidates[0].sittings.insert(candidates[0].sittings.begin(), sat(0, pure_a, "10 0"));
    candidates[0].sittings[1].reattempts.push_back(
        {"2", 1, monday + Days{20}, {parse_part_marks("10", Marks(10))}});
    CHECK_THAT(under(candidates, set_of("2019", 20, {{"A", 14}})).bases[0].standard_error.value(),
               WithinAbs(2, 1e-12));
    // Who sat another paper later is held to that one, and counts for the first one's error still.
    candidates[0].sittings.push_back(sat(5, paper_of("pure-b", {15, 5}), "9 2"));
    const ClassUnder all = under(candidates, set_of("2019", 20, {{"A", 12}}));
    REQUIRE(all.bases.size() == 2);
    CHECK(all.bases[0].papers.at(0)->id() == "pure-a");
    CHECK(all.bases[0].candidates == 4);
    CHECK_THAT(all.bases[0].standard_error.value(), WithinAbs(2, 1e-12));
    CHECK(all.bases[1].papers.at(0)->id() == "pure-b");
    CHECK(all.bases[1].candidates == 1);
    CHECK(all.bases[1].standard_error == Figure(NoFigure::few_candidates));
    CHECK(near(all) == "K02 A -2");
    CHECK(all.near[0].basis == 0);
}

TEST_CASE("of several papers together the standard error is the root of the sum of squares") {
    const auto pure_b = paper_of("pure-b", {15, 15});
    const auto pure_c = paper_of("pure-c", {40});
    std::vector<Candidate> candidates = five();
    const std::vector<std::string> of_b{"15 9", "9 3", "0 3", "1 4", "12 3"}; // 6, 6, -3, -3, 9: 31.5^½
    for (std::size_t i = 0; i < 5; ++i) // not all in the same order of days
        candidates[i].sittings.insert(i == 0 ? candidates[i].sittings.begin() : candidates[i].sittings.end(),
                                      sat(i == 0 ? 0 : 2, pure_b, of_b[i]));
    const ClassUnder both = under(candidates, set_of("2019", 50, {{"A", 38}, {"B", 24}}));
    REQUIRE(both.bases.size() == 1);
    REQUIRE(both.bases[0].papers.size() == 2);
    CHECK(both.bases[0].papers[0]->id() == "pure-a");
    CHECK_THAT(both.bases[0].standard_error.value(), WithinAbs(std::sqrt(4 + 31.5), 1e-12));
    CHECK(near(both) == "K01 A 0, K04 B -1, K02 B -2"); // totals 38, 22, 11, 23, 17

    for (Candidate& one : candidates)
        one.sittings.push_back(sat(9, pure_c, "20"));
    const ClassUnder three_papers = under(candidates, set_of("2019", 90, {{"A", 52}}));
    CHECK(three_papers.counted == 5);
    CHECK(three_papers.bases.at(0).standard_error == Figure(NoFigure::one_question));
    CHECK(near(three_papers).empty());
}

TEST_CASE("without a standard error nobody is said to be near a boundary") {
    const std::vector<Candidate> one{three()[0]};
    const ClassUnder alone = under(one, set_of("2019", 20, {{"A", 14}}));
    CHECK(reached(alone) == "1/0 0/1 ");
    CHECK(alone.bases.at(0).standard_error == Figure(NoFigure::few_candidates));
    CHECK(near(alone).empty());
    const ClassUnder few = under(three(), set_of("2019", 20, {{"A", 14}}));
    CHECK(few.bases.at(0).standard_error == Figure(NoFigure::few_candidates));
    CHECK(near(few).empty());
}

TEST_CASE("sets of one subject and total are held against the same marks, and stand together") {
    const auto all = class_standing(five(), {set_of("2019", 20, {{"A", 14}}), set_of("2020", 62, {{"A", 14}}),
                                             set_of("2021", 20, {{"A", 12}})});
    const auto groups = held_alike(all);
    REQUIRE(groups.size() == 1);
    REQUIRE(groups[0].size() == 2);
    CHECK(groups[0][0].set.name == "2019");
    CHECK(groups[0][1].set.name == "2021");
}

TEST_CASE("who is near a boundary under any of the sets is listed by the least distance") {
    const auto groups = held_alike(class_standing(
        five(), {set_of("2019", 20, {{"A", 16}, {"B", 7}}), set_of("2020", 20, {{"A", 17}, {"B", 8}})}));
    std::string text; // 14, 10, 8, 18, 2
    for (const NearUnder& near : near_boundaries(groups.at(0)))
        text += near.candidate + (near.sets[0] ? " yes" : " no") + (near.sets[1] ? " yes, " : " no, ");
    CHECK(text == "K03 yes yes, K04 yes yes, K01 yes no, K02 no yes, ");
}

TEST_CASE("nearly everyone is near where the standard error is longer than half of a grade's width") {
    const auto is_wide = [](int a, int b) { // a standard error of 2
        return under(five(), set_of("2019", 20, {{"A", a}, {"B", b}})).nearly_all_near();
    };
    CHECK_FALSE(is_wide(14, 10));
    CHECK(is_wide(13, 10));
    CHECK(under(five(), set_of("2019", 20, {{"A", 14}, {"B", 12}, {"C", 7}})).grade_width == 3.5);
    CHECK_FALSE(under(five(), set_of("2019", 20, {{"A", 1}})).nearly_all_near()); // no width

    auto many = five();
    for (int i = 10; i < 20; ++i)
        many.push_back(candidate("L" + std::to_string(i), {sat(1, pure_a, i % 2 == 0 ? "6 4" : "4 6")}));
    const auto wide = class_standing(many, {set_of("2019", 20, {{"A", 13}, {"B", 10}})});
    CHECK(wide.at(0).near.size() > NearUnder::nearest);
    CHECK(near_boundaries(wide).size() == NearUnder::nearest);
    const auto narrow = class_standing(many, {set_of("2019", 20, {{"A", 16}, {"B", 10}})});
    CHECK(near_boundaries(narrow).size() == narrow.at(0).near.size());
}

TEST_CASE("a class's standing is in every subject, or in just one") {
    auto candidates = three();
    candidates[0].sittings.push_back(sat(3, paper_of("mechanics-a", {12, 8}, "mechanics"), "10 7"));
    const std::vector<BoundarySet> sets{set_of("2019", 20, {{"A", 14}}),
                                        set_of("2020", 20, {{"A", 14}}, "mechanics"),
                                        set_of("2021", 20, {{"A", 14}}, "")};
    const auto all = class_standing(candidates, sets);
    REQUIRE(all.size() == 3);
    CHECK(all[0].set.name == "2021");
    CHECK(all[0].bases.size() == 2); // of all subjects the paper sat last
    CHECK(all[1].set.name == "2020");
    CHECK(all[1].counted == 1);

    const auto pure = class_standing(candidates, sets, "pure");
    REQUIRE(pure.size() == 2);
    CHECK(pure[0].set.name == "2019");
    CHECK(pure[1].set.subject == "pure");
    CHECK(pure[1].bases.size() == 1);
    CHECK(class_standing(candidates, {sets[0]}, "statistics").empty());
    CHECK(class_standing({}, sets).at(0).counted == 0);
}

TEST_CASE("every candidate is counted once, as their own standing says") {
    std::mt19937 dice(21);
    const std::vector<std::shared_ptr<const Paper>> papers{paper_of("p1", {10, 10, 10}),
                                                           paper_of("p2", {15, 15}), paper_of("p3", {30})};
    for (int run = 0; run < 100; ++run) {
        std::vector<Candidate> candidates;
        for (int i = pick(dice, 1, 12); i > 0; --i) {
            std::vector<SittingRecord> sittings;
            for (int id = pick(dice, 0, 2); id > 0; --id) {
                const auto& paper = papers[dice() % papers.size()];
                std::string line;
                for (std::size_t part = 0; part < paper->parts().size(); ++part)
                    line += (part == 0 ? "" : " ") + std::to_string(pick(dice, 0, 5)) + "+" +
                            std::to_string(pick(dice, 0, 5));
                sittings.insert(sittings.begin(), sat(id, paper, line));
            }
            candidates.push_back(candidate("K" + std::to_string(10 + i), sittings));
        }
        const int a = pick(dice, 10, 30);
        const BoundarySet set =
            set_of("random", 30, {{"A", a}, {"B", pick(dice, 5, a - 1)}, {"C", pick(dice, 0, 4)}});
        const ClassUnder all = under(candidates, set);

        std::vector<std::size_t> unaided(4);
        std::vector<std::size_t> in_time(4);
        std::vector<std::string> nearby;
        for (const Candidate& one : candidates) {
            const auto basis = basis_for(set, one);
            if (!basis)
                continue;
            ++unaided[grade_of(set, basis->totals.unaided()).grade.value_or(3)];
            ++in_time[grade_of(set, basis->totals.in_time).grade.value_or(3)];
            std::vector<std::vector<PartMarks>> sittings;
            for (const Candidate& other : candidates)
                for (const SittingRecord& record : other.sittings)
                    if (record.paper == basis->papers[0] && is_latest_whole(other, record))
                        sittings.push_back(record.sitting.parts);
            const Figure error = analyse(*basis->papers[0], sittings).standard_error;
            for (const GradeBoundary& boundary : set.grades)
                if (error.has_value() && std::abs(basis->totals.unaided().count() - boundary.mark.count()) <=
                                             error.value() + 1e-9) {
                    nearby.push_back(one.code);
                    break;
                }
        }
        std::sort(nearby.begin(), nearby.end());

        for (std::size_t grade = 0; grade < 3; ++grade) {
            REQUIRE(all.grades[grade].reached.unaided == unaided[grade]);
            REQUIRE(all.grades[grade].reached.in_time == in_time[grade]);
            REQUIRE(all.grades[grade].or_better.unaided >= all.grades[grade].or_better.in_time);
        }
        REQUIRE(all.below.unaided == unaided[3]);
        REQUIRE(all.below.in_time == in_time[3]);
        REQUIRE(all.grades[2].or_better.unaided + all.below.unaided == all.counted);
        REQUIRE(all.counted + all.not_counted() == candidates.size());
        std::vector<std::string> told;
        for (const NearBoundary& one : all.near)
            told.push_back(one.candidate);
        REQUIRE(std::is_sorted(all.near.begin(), all.near.end(),
                               [](const NearBoundary& one, const NearBoundary& other) {
                                   return std::abs(one.above.count()) < std::abs(other.above.count());
                               }));
        std::sort(told.begin(), told.end());
        REQUIRE(told == nearby);
    }
}
