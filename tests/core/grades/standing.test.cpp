#include "inkturn/grades/standing.hpp"

#include "boundary_set.hpp"
#include "catch.hpp"
#include "dice.hpp"
#include "papers.hpp"

#include <cstddef>
#include <optional>
#include <random>
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

/// 50 in time, 12 in overtime, 20 corrected, of 100.
Candidate example() {
    return candidate_with({sat(1, paper_of("pure-a", {100}), "50+12+20")});
}

const BoundarySet hard = set_of("2019", 100, {{"A", 65}, {"B", 55}, {"C", 45}});
const BoundarySet easy = set_of("2022", 100, {{"A", 60}, {"B", 50}, {"C", 40}});

/// The papers held against the set, joined by blanks, and the own marks.
std::string basis(const BoundarySet& set, const Candidate& candidate) {
    const auto basis = basis_for(set, candidate);
    if (!basis)
        return "none";
    std::string text;
    for (const auto& paper : basis->papers)
        text += paper->id() + " ";
    return text + std::to_string(basis->totals.unaided().count()) + "/" +
           std::to_string(basis->totals.max.count());
}

/// Three papers of pure, the first of 60 marks and the last of 140, and one of mechanics.
Candidate three_papers_and_one() {
    return candidate_with({sat(1, paper_of("pure-a", {60}), "30"), sat(2, paper_of("pure-b", {100}), "62"),
                           sat(3, paper_of("pure-c", {140}), "98"),
                           sat(4, paper_of("mechanics-a", {100}, "mechanics"), "10")});
}

/// About half of the next paper of one subject.
NextPaper half_of(const std::string& known) {
    return [known](const std::string& subject) {
        return subject == known ? std::optional(UncertainShare({{1, 0.5, 0.05}})) : std::nullopt;
    };
}

std::string grade(const BoundarySet& set, const GradeResult& reached) {
    return reached.grade ? set.grades[*reached.grade].grade : "none";
}

std::vector<std::string> names(const std::vector<GradeOutlook>& grades) {
    std::vector<std::string> all;
    for (const GradeOutlook& grade : grades)
        all.push_back(grade.grade);
    return all;
}

} // namespace

TEST_CASE("a set is compared with the paper of its subject that has as many marks") {
    const Candidate candidate =
        candidate_with({sat(1, paper_of("pure-a", {100}), "61"), sat(2, paper_of("pure-b", {60}), "40"),
                        sat(3, paper_of("mechanics-a", {100}, "mechanics"), "70")});
    CHECK(basis(set_of("2019", 100, {{"A", 60}}), candidate) == "pure-a 61/100");
    CHECK(basis(set_of("2019", 60, {{"A", 40}}), candidate) == "pure-b 40/60");
    CHECK(basis(set_of("2019", 100, {{"A", 60}}, "mechanics"), candidate) == "mechanics-a 70/100");
    CHECK(basis(set_of("2019", 100, {{"A", 60}}, "statistics"), candidate) == "none");
}

TEST_CASE("or against all papers of its subject together, where their marks add up to its total") {
    const Candidate candidate =
        candidate_with({sat(1, paper_of("pure-a", {100}), "61"), sat(2, paper_of("pure-b", {60}), "40"),
                        sat(3, paper_of("mechanics-a", {100}, "mechanics"), "70")});
    CHECK(basis(set_of("2019", 160, {{"A", 60}}), candidate) == "pure-a pure-b 101/160");
    CHECK(basis(set_of("2019", 260, {{"A", 60}}, ""), candidate) == "pure-a pure-b mechanics-a 171/260");
    CHECK(basis(set_of("2019", 260, {{"A", 60}}), candidate) == "none");
    CHECK(basis(set_of("2019", 200, {{"A", 60}}, ""), candidate) == "none");
    CHECK(basis_for(set_of("2019", 160, {{"A", 60}}), candidate)->day == monday + Days{2});
}

TEST_CASE(
    "of a paper that was sat again the latest sitting counts, of two papers that fit the one sat last") {
    const auto first = paper_of("pure-a", {100});
    const auto second = paper_of("pure-b", {100});
    const BoundarySet one = set_of("2019", 100, {{"A", 60}});
    const BoundarySet both = set_of("2019", 200, {{"A", 60}});
    CHECK(basis(one, candidate_with({sat(1, first, "61"), sat(2, first, "55")})) == "pure-a 55/100");
    CHECK(basis(both, candidate_with({sat(1, first, "61"), sat(2, first, "55")})) == "none");
    CHECK(basis(one, candidate_with({sat(1, first, "61"), sat(2, second, "40")})) == "pure-b 40/100");
    const Candidate again = candidate_with({sat(1, first, "61"), sat(2, second, "40"), sat(3, first, "70")});
    CHECK(basis(one, again) == "pure-b 40/100"); // sat once
    CHECK(basis(both, again) == "pure-b pure-a 110/200");
}

TEST_CASE("a standing is the grade in time, with overtime and with what was corrected, under each set") {
    const Standing all = standing(example(), {hard, easy});
    REQUIRE(all.under.size() == 2);
    CHECK(all.unmatched.empty());

    const StandingUnder& under_hard = all.under[0];
    CHECK(under_hard.set == 0);
    CHECK(grade(hard, under_hard.reached.in_time) == "C");
    CHECK(grade(hard, under_hard.reached.unaided) == "B");
    CHECK(grade(hard, under_hard.reached.with_corrected) == "A");
    CHECK(under_hard.reached.in_time.clear == Marks(5));
    CHECK(under_hard.reached.in_time.short_by == Marks(5));
    CHECK(under_hard.reached.unaided.clear == Marks(7));
    CHECK(under_hard.reached.unaided.short_by == Marks(3));
    CHECK(under_hard.reached.with_corrected.clear == Marks(17));

    CHECK(grade(easy, all.under[1].reached.in_time) == "B");
    CHECK(grade(easy, all.under[1].reached.unaided) == "A");
    CHECK(all.under[1].reached.in_time.clear == Marks(0));
}

TEST_CASE("pace is worth what came in overtime, corrections what came after it") {
    const Standing all = standing(example(), {hard, easy});
    CHECK(all.under[0].pace.marks == Marks(12));
    CHECK(all.under[0].pace.grades == 1);
    CHECK(all.under[0].corrections.marks == Marks(20));
    CHECK(all.under[0].corrections.grades == 1);
    CHECK(all.under[1].pace.grades == 1);
    CHECK(all.under[1].corrections.grades == 0);
}

TEST_CASE("each grade is looked for in every set, its cushion taken over the hardest") {
    const Standing all = standing(example(), {easy, hard});
    REQUIRE(names(all.grades) == std::vector<std::string>{"A", "B", "C"});
    const GradeOutlook& a = all.grades[0];
    CHECK(a.sets == 2);
    CHECK(a.hardest == 1);
    CHECK(a.reached.in_time == 0);
    CHECK(a.reached.unaided == 1);
    CHECK(a.reached.with_corrected == 2);
    CHECK(a.cushion.in_time.count() == -15);
    CHECK(a.cushion.unaided.count() == -3);
    CHECK(a.cushion.with_corrected.count() == 17);
    CHECK(all.grades[1].reached.in_time == 1);
    CHECK(all.grades[1].reached.unaided == 2);
    CHECK(all.grades[2].cushion.unaided.count() == 17);
}

TEST_CASE("a guess is no set in which a grade is reached, unless there are guesses alone") {
    BoundarySet guess = hard;
    guess.is_guess = true;
    const Standing with_past = standing(example(), {easy, guess});
    CHECK(with_past.grades[0].sets == 1);
    CHECK(with_past.grades[0].hardest == 0);
    CHECK(standing(example(), {guess}).grades[0].sets == 1);
}

TEST_CASE("where totals differ the hardest set is the one that asks the largest share") {
    const Candidate candidate =
        candidate_with({sat(1, paper_of("pure-a", {100}), "61"), sat(2, paper_of("pure-b", {60}), "40")});
    const BoundarySet of_60 = set_of("2018", 60, {{"A", 39}});    // .65
    const BoundarySet of_100 = set_of("2019", 100, {{"A", 64}});  // .64
    const BoundarySet of_160 = set_of("2020", 160, {{"A", 103}}); // .64375
    const Standing all = standing(candidate, {of_100, of_160, of_60});
    REQUIRE(all.grades.size() == 1);
    CHECK(all.grades[0].hardest == 2);
    CHECK(all.grades[0].cushion.unaided.count() == 1);
    CHECK(all.grades[0].reached.unaided == 1);
    CHECK(standing(candidate, {of_100, of_160}).grades[0].hardest == 1);
    CHECK(standing(candidate, {of_160, of_100}).grades[0].cushion.unaided.count() == -2);
}

TEST_CASE("grades that only some sets have come in their place") {
    const BoundarySet passes = set_of("2020", 100, {{"A*", 80}, {"A", 60}, {"C", 50}, {"pass", 20}});
    const Standing all = standing(example(), {hard, passes});
    CHECK(names(all.grades) == std::vector<std::string>{"A*", "A", "B", "C", "pass"});
    CHECK(all.grades[0].sets == 1);
    CHECK(all.grades[0].hardest == 1);
    CHECK(all.grades[1].sets == 2);
    CHECK(all.grades[2].sets == 1);
    CHECK(all.grades[4].cushion.unaided.count() == 42);
}

TEST_CASE("a set that fits no total is named with the totals there are, and counts nowhere") {
    const Candidate candidate =
        candidate_with({sat(1, paper_of("pure-a", {100}), "61"), sat(2, paper_of("pure-b", {60}), "40"),
                        sat(3, paper_of("pure-c", {60}), "30")});
    const Standing all = standing(
        candidate, {set_of("2019", 300, {{"A*", 200}}), hard, set_of("2020", 60, {{"A", 40}}, "mechanics")});
    REQUIRE(all.unmatched.size() == 2);
    CHECK(all.unmatched[0].set == 0);
    CHECK(all.unmatched[0].totals == std::vector<Marks>{Marks(60), Marks(100)});
    CHECK(all.unmatched[0].together == Marks(220));
    CHECK(all.unmatched[1].set == 2);
    CHECK(all.unmatched[1].totals.empty());
    CHECK(all.unmatched[1].together == Marks(0));
    CHECK(all.under.size() == 1);
    CHECK(names(all.grades) == std::vector<std::string>{"A", "B", "C"});
}

TEST_CASE("without sittings, or without sets, there is no standing") {
    CHECK(standing(example(), {}).under.empty());
    const Standing none = standing(candidate_with({}), {hard, easy});
    CHECK(none.under.empty());
    CHECK(none.grades.empty());
    CHECK(none.unmatched.size() == 2);
}

TEST_CASE("under a set the next paper is foreseen out of its total, by what is to be expected") {
    const Candidate candidate = three_papers_and_one();
    const std::vector<BoundarySet> sets{set_of("2019", 100, {{"A", 60}}), set_of("2020", 300, {{"A", 60}})};
    const Standing all = standing(candidate, sets, half_of("pure"));
    REQUIRE(all.under.size() == 2);
    CHECK(all.under[0].prediction.value().total == Marks(100));
    CHECK(all.under[0].prediction->middle == Marks(50));
    CHECK_FALSE(all.under[1].prediction); // several papers together are no next paper
}

TEST_CASE("nothing is foreseen where it isn't asked for or can't be told") {
    const Candidate candidate = three_papers_and_one();
    const BoundarySet set = set_of("2019", 100, {{"A", 60}});
    CHECK_FALSE(standing(candidate, {set}).under.at(0).prediction);
    CHECK_FALSE(standing(candidate, {set}, half_of("mechanics")).under.at(0).prediction);
    Candidate two = candidate;
    two.sittings.erase(two.sittings.begin());
    CHECK_FALSE(standing(two, {set}, half_of("pure")).under.at(0).prediction);
    const BoundarySet of_all = set_of("2019", 100, {{"A", 60}}, "");
    CHECK_FALSE(standing(candidate, {of_all}, half_of("pure")).under.at(0).prediction); // two subjects
}

TEST_CASE("one mark more never lowers a standing, and the hardest set leaves the least room") {
    std::mt19937 dice(8);
    const auto paper = paper_of("pure-a", {60});
    for (int run = 0; run < 300; ++run) {
        std::vector<BoundarySet> sets;
        for (int i = pick(dice, 1, 5); i > 0; --i) {
            const int top = pick(dice, 20, 60);
            const int middle = pick(dice, 10, top - 1);
            sets.push_back(
                set_of("random", 60, {{"A", top}, {"B", middle}, {"C", pick(dice, 0, middle - 1)}}));
        }
        const int unaided = pick(dice, 0, 59);
        const Standing lower = standing(candidate_with({sat(1, paper, std::to_string(unaided))}), sets);
        const Standing higher = standing(candidate_with({sat(1, paper, std::to_string(unaided + 1))}), sets);
        for (std::size_t i = 0; i < sets.size(); ++i)
            REQUIRE(grades_gained(sets[i], lower.under[i].reached.unaided, higher.under[i].reached.unaided) >=
                    0);
        for (std::size_t g = 0; g < 3; ++g) {
            const GradeOutlook& grade = lower.grades[g];
            REQUIRE(higher.grades[g].reached.unaided >= grade.reached.unaided);
            REQUIRE(higher.grades[g].cushion.unaided.count() == grade.cushion.unaided.count() + 1);
            REQUIRE((grade.cushion.unaided.count() >= 0) == (grade.reached.unaided == grade.sets));
            for (const BoundarySet& set : sets)
                REQUIRE(MarksDifference(Marks(unaided), set.grades[g].mark) >= grade.cushion.unaided);
        }
    }
}

TEST_CASE("a standing is asked for by subject, or in all of them") {
    const Candidate candidate =
        candidate_with({sat(1, paper_of("pure-a", {100}), "50+12"), sat(2, paper_of("pure-b", {60}), "40"),
                        sat(3, paper_of("mechanics-a", {100}, "mechanics"), "70")});
    const BoundarySet of_all = set_of("2020", 60, {{"A", 30}}, "");
    const BoundarySet mechanics = set_of("2021", 100, {{"A", 65}}, "mechanics");
    const std::vector<BoundarySet> sets{of_all, mechanics, hard};

    const CandidateStanding all = standing_in("", candidate, sets);
    CHECK(all.candidate == "K07");
    REQUIRE(all.subjects.size() == 3);
    CHECK(all.subjects[0].subject.empty());
    CHECK(all.subjects[1].subject == "mechanics");
    CHECK(all.subjects[2].subject == "pure");
    CHECK(all.subjects[1].standing.under.at(0).basis.papers.at(0)->id() == "mechanics-a");

    const CandidateStanding pure = standing_in("pure", candidate, sets);
    REQUIRE(pure.subjects.size() == 1);
    CHECK(pure.subjects[0].sets.size() == 2);
    CHECK(pure.subjects[0].standing.under.size() == 2);
    // A set of all subjects is held against those of the one asked for.
    const CandidateStanding other = standing_in("mechanics", candidate, sets);
    REQUIRE(other.subjects.size() == 1);
    CHECK(other.subjects[0].standing.under.size() == 1);
    CHECK(other.subjects[0].standing.unmatched.size() == 1);
    CHECK(standing_in("statistics", candidate, {hard}).subjects.empty());
}

TEST_CASE("bands are shown only beside sittings of the set's subject, and beside a paper of its total") {
    const std::vector<BoundarySet> sets{{"pure", "pure", Marks(100), {{"A", Marks(80)}}},
                                        {"all", "", Marks(200), {{"B", Marks(100)}}},
                                        {"latin", "latin", Marks(100), {{"C", Marks(40)}}}};
    const auto pure = paper_of("pure-a", {100});
    const auto grades = [](const std::vector<GradeBand>& bands) {
        std::string names;
        for (const GradeBand& band : bands)
            names += band.grade;
        return names;
    };
    CHECK(grades(bands_for(example(), sets)) == "AB");
    const Candidate both =
        candidate_with({sat(1, pure, "50"), sat(2, paper_of("latin-a", {50}, "latin"), "9")});
    CHECK(grades(bands_for(both, sets)) == "B");
    CHECK(grades(bands_for(*pure, sets)) == "A");
    CHECK(grades(bands_for(*paper_of("long", {200}), sets)) == "B");
    CHECK(grades(bands_for(*paper_of("short", {99}), sets)).empty());
}

TEST_CASE("in short a standing is about what its sets take, or else the paper sat last") {
    const Candidate candidate =
        candidate_with({sat(1, paper_of("pure-a", {100}), "50+12+20"), sat(2, paper_of("pure-b", {60}), "40"),
                        sat(3, paper_of("mechanics-a", {100}, "mechanics"), "70")});
    const CandidateStanding same = standing_in("", candidate, {hard, easy});
    REQUIRE(same.basis);
    CHECK(same.basis->papers.at(0)->id() == "pure-a");
    CHECK_FALSE(same.prediction);

    const CandidateStanding different =
        standing_in("pure", candidate, {hard, set_of("2020", 160, {{"A", 90}})});
    REQUIRE(different.basis);
    CHECK(different.basis->papers.at(0)->id() == "pure-b");

    const BoundarySet mechanics = set_of("2021", 100, {{"A", 65}}, "mechanics");
    CHECK(standing_in("", candidate, {mechanics, hard}).basis->papers.at(0)->id() == "mechanics-a");
    CHECK(standing_in("", candidate, {}).basis->papers.at(0)->id() == "mechanics-a");
    CHECK(standing_in("", candidate, {set_of("2020", 99, {{"A", 90}})}).basis->totals.unaided() == Marks(70));
    const CandidateStanding none = standing_in("", candidate_with({}), {hard});
    CHECK_FALSE(none.basis);
    CHECK_FALSE(none.prediction);
}

TEST_CASE("in short the next paper is foreseen out of what the sets take, in one subject") {
    const Candidate candidate = three_papers_and_one();
    const CandidateStanding pure = standing_in("pure", candidate, {hard}, half_of("pure"));
    CHECK(pure.prediction.value().total == Marks(100));
    CHECK(pure.prediction->middle == Marks(50));
    CHECK(pure.subjects.at(0).standing.under.at(0).prediction);
    CHECK(standing_in("", candidate, {hard}, half_of("pure")).prediction);
    CHECK_FALSE(standing_in("pure", candidate, {hard}).prediction);
    // Without a set that fits it is out of the paper sat last, if one subject was asked for.
    CHECK(standing_in("pure", candidate, {}, half_of("pure")).prediction.value().total == Marks(140));
    CHECK_FALSE(standing_in("", candidate, {}, half_of("pure")).prediction);
}

TEST_CASE("a paper sat once is compared before one sat again, which is named") {
    const auto seen = paper_of("pure-a", {100});
    Candidate candidate =
        candidate_with({sat(1, seen, "50"), sat(2, paper_of("pure-b", {100}), "60"), sat(3, seen, "90")});
    const BoundarySet set = set_of("2019", 100, {{"A", 60}});
    Standing all = standing(candidate, {set});
    REQUIRE(all.under.size() == 1);
    CHECK(all.under[0].basis.papers.at(0)->id() == "pure-b");
    CHECK(all.under[0].basis.again.empty());
    candidate.sittings.erase(candidate.sittings.begin() + 1);
    all = standing(candidate, {set});
    CHECK(all.under[0].basis.papers.at(0)->id() == "pure-a");
    CHECK(all.under[0].basis.again == std::vector<std::string>{"pure-a"});
    CHECK(all.under[0].basis.totals.in_time == Marks(90));
}
