#include "inkturn/grades/award_standing.hpp"

#include "award.hpp"
#include "catch.hpp"
#include "inkturn/grades/aim.hpp"
#include "inkturn/grades/class_award.hpp"
#include "refusal.hpp"

namespace {

using namespace inkturn;
using namespace inkturn::test;

Candidate candidate_who(std::vector<SittingRecord> sittings) {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings = std::move(sittings);
    return candidate;
}

const std::vector<GradeBoundary> of_300{{"A", Marks(200)}, {"B", Marks(160)}, {"C", Marks(120)}};

/// `Paper 1 p1, Paper 2 -`: which paper counts for each component.
std::string counted(const AwardStanding& standing) {
    std::string text;
    for (std::size_t i = 0; i < standing.components.size(); ++i) {
        const auto& sitting = standing.components[i].sitting;
        text += (i > 0 ? ", " : "") + standing.award.components[i].name + " " +
                (sitting ? sitting->paper->id() : "-");
    }
    return text;
}

std::string places(const AwardUnder& under) {
    std::string text;
    for (const ComponentUnder& one : under.components)
        text += (text.empty() ? "" : " ") + std::string(name(one.place));
    return text;
}

std::string grade_at(const BoundarySet& set, const GradeResult& reached) {
    return reached.grade ? set.grades[*reached.grade].grade : "none";
}

/// `122 to 222, C to A`.
std::string unaided(const AwardStanding& standing, std::size_t i = 0) {
    const AwardUnder& under = standing.under[i];
    const MarksReached& reached = under.reached.unaided;
    const BoundarySet& set = standing.sets[under.set];
    return std::to_string(reached.low.count()) + " to " + std::to_string(reached.high.count()) + ", " +
           grade_at(set, reached.low_grade) + " to " + grade_at(set, reached.high_grade);
}

AwardStanding of_three(const std::vector<SittingRecord>& sittings) {
    const Award award = three_papers();
    return award_standing(award, candidate_who(sittings), {set_of_award("2019", award, of_300)});
}

std::vector<GradeBoundary> unit_boundaries(int a) {
    return {{"A", Marks(a)}, {"B", Marks(a - 8)}, {"E", Marks(a - 30)}};
}
const std::vector<Marks> unit_uniform{Marks(80), Marks(70), Marks(40)};

} // namespace

TEST_CASE("each component takes its latest unseen sitting, whatever else was sat") {
    const auto p1 = paper_of_component("p1", 100, "Paper 1");
    const auto p1b = paper_of_component("p1b", 100, "Paper 1");
    const auto p2 = paper_of_component("p2", 100, "Paper 2");
    const auto p3 = paper_of_component("p3", 100, "Paper 3");
    std::vector<SittingRecord> sittings{sat(1, p1, "60"), sat(2, p2, "61"), sat(3, p3, "62")};
    CHECK(counted(of_three(sittings)) == "Paper 1 p1, Paper 2 p2, Paper 3 p3");
    CHECK(unaided(of_three(sittings)) == "183 to 183, B to B");

    sittings.push_back(sat(4, paper_of("other", {100}), "99")); // a fourth paper takes nothing away
    CHECK(unaided(of_three(sittings)) == "183 to 183, B to B");

    sittings.push_back(sat(5, p1b, "70"));
    const AwardStanding with_another = of_three(sittings);
    CHECK(counted(with_another) == "Paper 1 p1b, Paper 2 p2, Paper 3 p3");
    CHECK(with_another.components[0].earlier == std::vector<std::string>{"p1"});
    CHECK(unaided(with_another) == "193 to 193, B to B");

    sittings.push_back(sat(6, p1, "99")); // seen before
    CHECK(counted(of_three(sittings)) == "Paper 1 p1b, Paper 2 p2, Paper 3 p3");
}

TEST_CASE("what is missing is a gap with a range") {
    const AwardStanding standing = of_three({sat(1, paper_of_component("p1", 100, "Paper 1"), "60+2+3"),
                                             sat(2, paper_of_component("p3", 100, "Paper 3"), "61")});
    CHECK(counted(standing) == "Paper 1 p1, Paper 2 -, Paper 3 p3");
    CHECK(unaided(standing) == "123 to 223, C to A");
    CHECK(standing.under[0].reached.in_time.low == Marks(121));
    CHECK(standing.under[0].reached.with_corrected.high == Marks(226));
    REQUIRE(standing.under[0].gaps.size() == 1);
    CHECK(standing.under[0].gaps[0].components == std::vector<std::size_t>{1});
    CHECK(unaided(of_three({})) == "0 to 300, none to A");
}

TEST_CASE("a paper out of other marks than its component, or sat in part, doesn't count") {
    const auto odd = paper_of_component("odd", 99, "Paper 1");
    AwardStanding standing = of_three({sat(1, odd, "60")});
    CHECK(counted(standing) == "Paper 1 -, Paper 2 -, Paper 3 -");
    CHECK(standing.components[0].out_of_others == std::vector<std::string>{"odd"});

    const auto two = std::make_shared<const Paper>(
        PaperHead{"two", "", "pure", {}, RetryBy::question, {}, "Paper 1"}, parts_of({60, 40}));
    CHECK(counted(of_three({sat(1, two, "50 not-set")})) == "Paper 1 -, Paper 2 -, Paper 3 -");
    // The whole of it later is no longer unseen.
    CHECK(counted(of_three({sat(1, two, "50 not-set"), sat(2, two, "50 30")})) ==
          "Paper 1 -, Paper 2 -, Paper 3 -");
}

TEST_CASE("of a choice the best count, and what it still lacks is one gap") {
    const Award award = two_of_three();
    const auto sitting = [](int id, const char* component, const char* marks) {
        return sat(id, paper_of_component(std::string("p") + std::to_string(id), 75, component), marks);
    };
    const auto look = [&](const std::vector<SittingRecord>& sittings) {
        return award_standing(award, candidate_who(sittings), {set_of_award("2019", award, of_300)});
    };
    const SittingRecord core = sat(1, paper_of_component("core", 150, "Core"), "100");
    AwardStanding standing = look(
        {core, sitting(2, "Statistics", "40"), sitting(3, "Mechanics", "50"), sitting(4, "Decision", "45")});
    CHECK(places(standing.under[0]) == "counts spare counts counts");
    CHECK(unaided(standing) == "195 to 195, B to B");

    standing = look({core, sitting(2, "Statistics", "40"), sitting(3, "Mechanics", "50")});
    CHECK(places(standing.under[0]) == "counts counts counts closed");
    CHECK(standing.under[0].gaps.empty());

    standing = look({core, sitting(2, "Statistics", "40")});
    CHECK(places(standing.under[0]) == "counts counts open open");
    CHECK(unaided(standing) == "140 to 215, C to A");
    CHECK(standing.under[0].gaps[0].count == 1);
    CHECK(standing.under[0].gaps[0].components == std::vector<std::size_t>{2, 3});
}

TEST_CASE("uniform marks are made by the series of the set's name, or of each there is") {
    const Award award = two_units();
    const std::vector<GradeBoundary> grades{{"A", Marks(160)}, {"B", Marks(140)}, {"E", Marks(80)}};
    const std::vector<SittingRecord> sittings{sat(1, paper_of_component("u1", 75, "Unit 1"), "60"),
                                              sat(2, paper_of_component("u2", 75, "Unit 2"), "52")};
    const BoundarySet spring_1 = set_of_component("spring", award, 0, unit_boundaries(60), unit_uniform);
    const BoundarySet spring_2 = set_of_component("spring", award, 1, unit_boundaries(56), unit_uniform);
    const BoundarySet summer_1 = set_of_component("summer", award, 0, unit_boundaries(64), unit_uniform);

    AwardStanding standing = award_standing(award, candidate_who(sittings),
                                            {set_of_award("spring", award, grades), spring_1, spring_2});
    REQUIRE(standing.under.size() == 1);
    CHECK(standing.under[0].series == "spring");
    CHECK(unaided(standing) == "155 to 155, B to B"); // 80 and 75

    standing = award_standing(award, candidate_who(sittings),
                              {set_of_award("always", award, grades), spring_1, spring_2, summer_1});
    REQUIRE(standing.under.size() == 2);
    CHECK(standing.under[1].series == "summer");
    CHECK(places(standing.under[1]) == "counts no_scale");
    CHECK(unaided(standing, 1) == "75 to 175, none to A");
    CHECK(standing.under[1].gaps[0].components == std::vector<std::size_t>{1});
    CHECK(standing.grades.size() == 3);
}

TEST_CASE("what rests on a guess says so, be it the set or the series that made uniform marks") {
    const Award award = two_units();
    BoundarySet guessed = set_of_component("spring", award, 0, unit_boundaries(60), unit_uniform);
    guessed.is_guess = true;
    const AwardStanding standing = award_standing(
        award, candidate_who({}), {set_of_award("spring", award, {{"A", Marks(160)}}), guessed});
    CHECK(standing.under[0].is_guess);
    CHECK_FALSE(of_three({}).under[0].is_guess);
}

TEST_CASE("an aim asks of what is not sat just what brings it, and not a mark less") {
    const AwardStanding standing = of_three({sat(1, paper_of_component("p1", 100, "Paper 1"), "60+30"),
                                             sat(2, paper_of_component("p3", 100, "Paper 3"), "61")});
    const auto aim = [&](const char* grade, int clear) {
        return aims(standing, {grade, Marks(clear)}).at(0);
    };
    CHECK(aim("A", 0).reach == AimReach::in_gaps);
    CHECK(aim("A", 0).in_time == Marks(121)); // an exam gives no overtime
    CHECK(aim("A", 0).above.count() == -79);
    CHECK(aim("A", 0).needs.at(0).raw == Marks(79));
    CHECK(aim("A", 10).needs.at(0).raw == Marks(89));
    CHECK(aim("A", 21).needs.at(0).raw == Marks(100));
    CHECK(aim("A", 22).reach == AimReach::beyond);
    CHECK(aim("A", 101).reach == AimReach::too_high);
    CHECK(aim("C", 1).reach == AimReach::reached);
    CHECK(aim("C", 2).needs.at(0).raw == Marks(1));
    CHECK(aims(standing, {"Z", Marks(0)}).empty());
}

TEST_CASE("of several gaps each is asked for the same share, and together they bring the aim") {
    const Award award{"Weighted",
                      "pure",
                      {{"Paper 1", Marks(80), parse_weight("1.25", "weight")},
                       {"Paper 2", Marks(60)},
                       {"Paper 3", Marks(35), parse_weight("2", "weight")}},
                      {}};
    const std::vector<GradeBoundary> grades{{"A", Marks(170)}, {"B", Marks(121)}};
    for (int marks = 0; marks <= 80; ++marks) {
        const AwardStanding standing = award_standing(
            award, candidate_who({sat(1, paper_of_component("p1", 80, "Paper 1"), std::to_string(marks))}),
            {set_of_award("2019", award, grades)});
        const AimUnder aim = aims(standing, {"B", Marks(0)}).at(0);
        if (aim.reach != AimReach::in_gaps)
            continue;
        REQUIRE(aim.needs.size() == 2);
        const auto brought = [&](int less) {
            WeightedMarks sum = standing.under[0].components[0].brings.in_time;
            for (const ComponentNeed& need : aim.needs)
                sum +=
                    weighted(award.components[need.component], Marks(std::max(0, need.raw->count() - less)));
            return rounded(sum);
        };
        CHECK(brought(0) >= Marks(121));
        CHECK(brought(1) < Marks(121));
    }
}

TEST_CASE("an aim in uniform marks asks for the raw marks of the series, where it has the set") {
    const Award award = two_units();
    const BoundarySet own = set_of_award("spring", award, {{"A", Marks(160)}});
    const BoundarySet unit_1 = set_of_component("spring", award, 0, unit_boundaries(60), unit_uniform);
    const BoundarySet unit_2 = set_of_component("spring", award, 1, unit_boundaries(56), unit_uniform);
    const Candidate candidate = candidate_who({sat(1, paper_of_component("u1", 75, "Unit 1"), "60")});
    const AimUnder aim = aims(award_standing(award, candidate, {own, unit_1, unit_2}), {"A", Marks(0)}).at(0);
    CHECK(aim.needs.at(0).in_award == Marks(80));
    CHECK(aim.needs.at(0).raw == Marks(56));
    CHECK_FALSE(aims(award_standing(award, candidate, {own, unit_1}), {"A", Marks(0)}).at(0).needs.at(0).raw);
    CHECK(aims(award_standing(award, candidate, {own, unit_2}), {"A", Marks(0)}).at(0).reach ==
          AimReach::not_known);
}

TEST_CASE("a class stands in an award candidate by candidate, those who sat none of it counted") {
    const Award award = three_papers();
    Candidate first = candidate_who({sat(1, paper_of_component("p1", 100, "Paper 1"), "60")});
    Candidate other = candidate_who({sat(2, paper_of("other", {100}), "99")});
    other.code = "K08";
    const auto sets = std::vector<BoundarySet>{set_of_award("2019", award, of_300)};
    const auto all = class_awards({award}, "", {first, other}, sets);
    REQUIRE(all.size() == 1);
    CHECK(all[0].without == 1);
    REQUIRE(all[0].candidates.size() == 1);
    CHECK(all[0].candidates[0].candidate == "K07");
    CHECK(unaided(all[0].candidates[0].standing) == unaided(award_standing(award, first, sets)));
    CHECK(class_awards({award}, "history", {first}, sets).empty());
}
