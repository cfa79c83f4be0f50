#include "inkturn/grades/uniform_mark.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;
using Catch::Matchers::EndsWith;
using inkturn::test::pick;

BoundarySet set_of(const std::vector<GradeBoundary>& grades, int total = 62) {
    return {"June 2019", "pure", Marks(total), grades};
}

BoundarySet five_grades() {
    return set_of({{"A", Marks(39)}, {"B", Marks(33)}, {"C", Marks(27)}, {"D", Marks(22)}, {"E", Marks(17)}});
}

/// One to six grades at random marks, some of them at the very ends.
BoundarySet random_set(std::mt19937& dice) {
    BoundarySet set{"random", "", Marks(pick(dice, 6, 40)), {}};
    std::vector<int> marks;
    for (int mark = 0; mark <= set.total.count(); ++mark)
        marks.push_back(mark);
    const auto grades = static_cast<std::size_t>(pick(dice, 1, 6));
    while (marks.size() > grades)
        marks.erase(marks.begin() + pick(dice, 0, static_cast<int>(marks.size()) - 1));
    for (auto mark = marks.rbegin(); mark != marks.rend(); ++mark)
        set.grades.push_back({std::string(1, static_cast<char>('A' + set.grades.size())), Marks(*mark)});
    return set;
}

std::vector<int> marks(const std::vector<GradeBoundary>& boundaries) {
    std::vector<int> all;
    for (const GradeBoundary& boundary : boundaries)
        all.push_back(boundary.mark.count());
    return all;
}

std::vector<std::string> names(int count) {
    std::vector<std::string> all;
    for (int i = 0; i < count; ++i)
        all.push_back("grade " + std::to_string(i));
    return all;
}

std::string grade_at(const BoundarySet& set, int mark) {
    const GradeResult reached = grade_of(set, Marks(mark));
    return reached.grade ? set.grades[*reached.grade].grade : "none";
}

std::vector<Marks> uniform(const std::vector<int>& counts) {
    std::vector<Marks> all;
    for (const int count : counts)
        all.emplace_back(count);
    return all;
}

} // namespace

TEST_CASE("a boundary set has a name, a total and grades that fall") {
    CHECK_NOTHROW(check_boundary_set(five_grades()));
    CHECK_NOTHROW(check_boundary_set(set_of({{"pass", Marks(62)}})));
    CHECK_NOTHROW(check_boundary_set(set_of({{"A*", Marks(1)}, {"sixteen letters!", Marks(0)}})));
    CHECK_NOTHROW(check_boundary_set(set_of({{"A", Marks(1)}}, 1)));
    CHECK_NOTHROW(check_boundary_set(set_of({{"A", Marks(1)}}, 1'000'000)));
}

TEST_CASE("what is wrong with a boundary set is said with grade, mark and remedy") {
    CHECK_THROWS_WITH(check_boundary_set(set_of({})),
                      "boundary set 'June 2019': there are no grades: give at least one with its mark");
    CHECK_THROWS_WITH(
        check_boundary_set(set_of({{"A", Marks(63)}})),
        "boundary set 'June 2019': grade A at 63 is above the total of 62: give a mark up to it, "
        "or the total that the boundaries are out of");
    CHECK_THROWS_WITH(
        check_boundary_set(set_of({{"A", Marks(39)}, {"B", Marks(39)}})),
        "boundary set 'June 2019': grade B at 39 is not below A at 39: give the grades from the "
        "top down, each with fewer marks than the one before");
    CHECK_THROWS_WITH(check_boundary_set(set_of({{"A", Marks(39)}, {"B", Marks(33)}, {"A", Marks(20)}})),
                      "boundary set 'June 2019': grade A appears twice: name each grade once");
}

TEST_CASE("a grade has 1 to 16 printable characters, with no blank at the ends") {
    for (const char* grade : {"", " A", "A ", "seventeen letters", "A\n", "\xff"}) {
        CAPTURE(grade);
        CHECK_THROWS_AS(check_boundary_set(set_of({{grade, Marks(3)}})), Error);
        CHECK_THROWS_AS(fill({grade, Marks(30)}, {"E", Marks(3)}, FillRule::quarters, {grade, "C", "E"}),
                        Error);
    }
    CHECK_THROWS_WITH(check_boundary_set(set_of({{"seventeen letters", Marks(3)}})),
                      "boundary set 'June 2019': grade 'seventeen letters': at most 16 characters");
}

TEST_CASE("the name, subject and total of a boundary set are checked") {
    const std::vector<GradeBoundary> grades{{"A", Marks(0)}};
    CHECK_NOTHROW(check_boundary_set({std::string(200, 'x'), std::string(200, 'y'), Marks(62), grades}));
    CHECK_THROWS_AS(check_boundary_set({"", "", Marks(62), grades}), Error);
    CHECK_THROWS_AS(check_boundary_set({std::string(201, 'x'), "", Marks(62), grades}), Error);
    CHECK_THROWS_AS(check_boundary_set({"June", std::string(201, 'x'), Marks(62), grades}), Error);
    CHECK_THROWS_AS(check_boundary_set({"June", "", Marks(1'000'001), grades}), Error);
    CHECK_THROWS_WITH(check_boundary_set({"June", "", Marks(0), grades}),
                      "boundary set 'June': the total can't be 0: give one from 1 to 1000000");
}

TEST_CASE("rules are named") {
    for (const FillRule rule : {FillRule::quarters, FillRule::thirds, FillRule::halves})
        CHECK(fill_rule_named(name(rule)) == rule);
    CHECK(steps_of(*fill_rule_named("quarters")) == 4);
    CHECK(steps_of(*fill_rule_named("thirds")) == 3);
    CHECK(steps_of(*fill_rule_named("halves")) == 2);
    CHECK(fill_rule_named("fifths") == std::nullopt);
}

TEST_CASE(
    "what doesn't divide lengthens the top steps in quarters, and is rounded down in thirds and halves") {
    const std::vector<std::string> grades = names(5);
    const GradeBoundary top{grades.front(), Marks(43)};
    const GradeBoundary bottom{grades.back(), Marks(20)}; // 23 marks in four steps of 5.75
    CHECK(marks(fill(top, bottom, FillRule::quarters, grades)) == std::vector<int>{43, 37, 31, 25, 20});
    CHECK(marks(fill(top, bottom, FillRule::thirds, grades)) == std::vector<int>{43, 37, 31, 25, 20});
    CHECK(marks(fill({"A", Marks(41)}, {"E", Marks(20)}, FillRule::quarters)) ==
          std::vector<int>{41, 35, 30, 25, 20});
    CHECK(marks(fill({"0", Marks(42)}, {"4", Marks(20)}, FillRule::thirds, {"0", "1", "2", "3", "4"})) ==
          std::vector<int>{42, 36, 31, 25, 20}); // steps of 5.5
    CHECK(marks(fill({"0", Marks(42)}, {"4", Marks(20)}, FillRule::quarters, {"0", "1", "2", "3", "4"})) ==
          std::vector<int>{42, 36, 30, 25, 20});
    CHECK(marks(fill({"A", Marks(40)}, {"C", Marks(21)}, FillRule::halves)) == std::vector<int>{40, 30, 21});
}

TEST_CASE("without a rule four steps are quarters, and no other number of steps has one") {
    CHECK(marks(fill({"A", Marks(42)}, {"E", Marks(20)})) == std::vector<int>{42, 36, 30, 25, 20});
    CHECK(marks(fill({"A*", Marks(42)}, {"D", Marks(20)}, {}, {"A*", "A", "B", "C", "D"})) ==
          std::vector<int>{42, 36, 30, 25, 20});
    CHECK_THROWS_WITH(fill({"B", Marks(42)}, {"E", Marks(20)}),
                      "name a rule for 3 steps: quarters, thirds or halves");
}

TEST_CASE("grades that are not named are the capital letters between, as many as the rule has steps") {
    const auto filled = fill({"C", Marks(42)}, {"G", Marks(20)});
    CHECK(filled[1].grade == "D");
    CHECK(filled[3].grade == "F");
    CHECK_THROWS_WITH(
        fill({"A", Marks(42)}, {"D", Marks(20)}, FillRule::quarters),
        "from A to D there are 3 steps, but the rule of quarters has 4: use another rule, or name all "
        "grades");
    for (const char* top : {"A*", "a", "9", "E", "F"}) {
        CAPTURE(top);
        CHECK_THROWS_WITH(fill({top, Marks(42)}, {"E", Marks(20)}, FillRule::quarters),
                          EndsWith("name all of them from the top down, such as A*,A,B,C,D,E"));
    }
}

TEST_CASE("grades that are named begin with the top and end with the bottom one, each once") {
    CHECK_THROWS_WITH(
        fill({"A", Marks(42)}, {"E", Marks(20)}, FillRule::quarters, {"A*", "B", "C", "E"}),
        "the grades named run from A* to E, but the marks given are for A and E: name all grades "
        "from the top down, with both of these");
    CHECK_THROWS_AS(fill({"A", Marks(42)}, {"E", Marks(20)}, FillRule::quarters, {"A", "B", "C", "D"}),
                    Error);
    CHECK_THROWS_WITH(fill({"A", Marks(42)}, {"E", Marks(20)}, FillRule::quarters, {"A", "B", "B", "E"}),
                      "grade B appears twice: name each grade once");
    CHECK_THROWS_AS(fill({"A", Marks(42)}, {"E", Marks(20)}, FillRule::quarters, {"A", "", "C", "E"}), Error);
    CHECK_THROWS_WITH(fill({"A", Marks(42)}, {"B", Marks(20)}, FillRule::halves, {"A", "B"}),
                      "no grade lies between A and B: there is nothing to fill in");
}

TEST_CASE("between the judged grades there must be one mark per step") {
    CHECK(marks(fill({"A", Marks(4)}, {"E", Marks(0)})) == std::vector<int>{4, 3, 2, 1, 0});
    CHECK_THROWS_WITH(
        fill({"A", Marks(20)}, {"E", Marks(17)}),
        "from A at 20 to E at 17 there are fewer marks than the 4 steps between the grades: check both "
        "marks");
    CHECK_THROWS_WITH(fill({"A", Marks(17)}, {"E", Marks(39)}),
                      "grade A at 17 is not above E at 39: give the higher mark to the top grade");
    CHECK_THROWS_AS(fill({"A", Marks(17)}, {"E", Marks(17)}), Error);
    CHECK_THROWS_AS(fill({"A", Marks(1'000'001)}, {"E", Marks(1)}), Error);
}

TEST_CASE("filled boundaries fall, hit both ends, and have steps that differ by a mark at most") {
    std::mt19937 dice(3);
    for (int i = 0; i < 3000; ++i) {
        const int steps = pick(dice, 2, 12);
        const int bottom = pick(dice, 0, 100);
        const int top = bottom + steps + pick(dice, 0, 150);
        const FillRule rule = pick(dice, 0, 1) == 0 ? FillRule::quarters : FillRule::thirds;
        const std::vector<std::string> grades = names(steps + 1);
        const auto filled = fill({grades.front(), Marks(top)}, {grades.back(), Marks(bottom)}, rule, grades);
        REQUIRE_NOTHROW(check_boundary_set(set_of(filled, top)));
        REQUIRE(filled.front().mark == Marks(top));
        REQUIRE(filled.back().mark == Marks(bottom));
        for (std::size_t k = 0; k + 1 < filled.size(); ++k) {
            const int step = (filled[k].mark - filled[k + 1].mark).count();
            const int least = (top - bottom) / steps;
            if (step < least || step > least + 1)
                FAIL("a step of " << step << " from " << top << " to " << bottom << " in " << steps);
            if (rule == FillRule::quarters && k > 0)
                REQUIRE(step <= (filled[k - 1].mark - filled[k].mark).count());
        }
    }
}

TEST_CASE("a mark gets the grade whose boundary it reaches, and lies clear of it and short of the next") {
    const BoundarySet set = five_grades();
    CHECK(grade_at(set, 62) == "A");
    CHECK(grade_at(set, 39) == "A");
    CHECK(grade_at(set, 38) == "B");
    CHECK(grade_at(set, 17) == "E");
    CHECK(grade_at(set, 16) == "none");

    CHECK(grade_of(set, Marks(41)).clear == Marks(2));
    CHECK(grade_of(set, Marks(41)).short_by == std::nullopt);
    CHECK(grade_of(set, Marks(25)).clear == Marks(3));
    CHECK(grade_of(set, Marks(25)).short_by == Marks(2));
    CHECK(grade_of(set, Marks(10)).clear == std::nullopt);
    CHECK(grade_of(set, Marks(10)).short_by == Marks(7));
    CHECK(grade_at(set_of({{"pass", Marks(0)}}), 0) == "pass");
}

TEST_CASE("grades gained count the step to the lowest grade too") {
    const BoundarySet set = five_grades();
    const auto gained = [&](int from, int to) {
        return grades_gained(set, grade_of(set, Marks(from)), grade_of(set, Marks(to)));
    };
    CHECK(gained(0, 16) == 0);
    CHECK(gained(0, 17) == 1);
    CHECK(gained(0, 62) == 5);
    CHECK(gained(26, 27) == 1);
    CHECK(gained(39, 21) == -4);
}

TEST_CASE("a better mark never lowers a grade, and each mark is placed exactly") {
    std::mt19937 dice(4);
    for (int i = 0; i < 500; ++i) {
        const BoundarySet set = random_set(dice);
        REQUIRE_NOTHROW(check_boundary_set(set));
        for (int mark = 0; mark <= set.total.count(); ++mark) {
            const GradeResult reached = grade_of(set, Marks(mark));
            if (mark > 0)
                REQUIRE(grades_gained(set, grade_of(set, Marks(mark - 1)), reached) >= 0);
            REQUIRE(reached.grade.has_value() == reached.clear.has_value());
            if (reached.grade)
                REQUIRE(set.grades[*reached.grade].mark + *reached.clear == Marks(mark));
            const std::size_t above = reached.grade.value_or(set.grades.size());
            REQUIRE(reached.short_by.has_value() == (above > 0));
            if (reached.short_by) {
                REQUIRE(*reached.short_by > Marks(0));
                REQUIRE(set.grades[above - 1].mark - *reached.short_by == Marks(mark));
            }
        }
    }
}

TEST_CASE("raw marks are scaled from nothing to the uniform maximum, a half rounded up") {
    const UniformScale scale = uniform_scale(five_grades(), uniform({80, 70, 60, 50, 40}), Marks(100));
    CHECK(scaled(scale, Marks(0)) == Marks(0));
    CHECK(scaled(scale, Marks(8)) == Marks(19)); // 18.82
    CHECK(scaled(scale, Marks(17)) == Marks(40));
    CHECK(scaled(scale, Marks(36)) == Marks(75));
    CHECK(scaled(scale, Marks(39)) == Marks(80));
    CHECK(scaled(scale, Marks(40)) == Marks(81)); // 80.87
    CHECK(scaled(scale, Marks(62)) == Marks(100));
    const UniformScale halves = uniform_scale(set_of({{"A", Marks(2)}}), uniform({5}));
    CHECK(scaled(halves, Marks(1)) == Marks(3)); // 2.5
}

TEST_CASE("without the uniform maximum the scale ends at the top grade") {
    const UniformScale scale = uniform_scale(five_grades(), uniform({80, 70, 60, 50, 40}));
    CHECK(scaled(scale, Marks(39)) == Marks(80));
    CHECK_THROWS_WITH(
        scaled(scale, Marks(40)),
        "mark 40 is not on the scale, which runs from 0 to 39: check the mark; above the top grade "
        "the scale needs the uniform maximum");
}

TEST_CASE("a scale may begin and end with a boundary") {
    const UniformScale from_nothing =
        uniform_scale(set_of({{"A", Marks(10)}, {"B", Marks(0)}}), uniform({9, 4}));
    CHECK(scaled(from_nothing, Marks(0)) == Marks(4));
    CHECK(scaled(from_nothing, Marks(10)) == Marks(9));
    CHECK(scaled(uniform_scale(set_of({{"A", Marks(0)}}), uniform({4})), Marks(0)) == Marks(4));
    CHECK(scaled(uniform_scale(set_of({{"A", Marks(62)}}), uniform({100})), Marks(31)) == Marks(50));
    CHECK_THROWS_WITH(
        uniform_scale(set_of({{"A", Marks(62)}}), uniform({90}), Marks(100)),
        "grade A at 62 is the whole total, so its uniform mark is the maximum: leave the maximum "
        "out");
}

TEST_CASE("grade bands are not drawn from a set that can't be") {
    BoundarySet rising = five_grades();
    std::swap(rising.grades.front().mark, rising.grades.back().mark);
    CHECK_THROWS_AS(grade_bands({rising}), Error);
}

TEST_CASE("there is one uniform mark per grade, and they fall") {
    CHECK_THROWS_WITH(
        uniform_scale(five_grades(), uniform({80, 70})),
        "boundary set 'June 2019' has 5 grades, but there are 2 uniform marks: give one per grade, from "
        "the top down");
    CHECK_THROWS_WITH(uniform_scale(five_grades(), uniform({80, 70, 70, 50, 40})),
                      "grade C, uniform mark 70 is not below 70: give the uniform marks from the top down");
    CHECK_THROWS_AS(uniform_scale(five_grades(), uniform({80, 70, 60, 50, -1})), Error);
    CHECK_THROWS_AS(uniform_scale(five_grades(), uniform({1'000'001, 70, 60, 50, 40})), Error);
    CHECK_THROWS_WITH(uniform_scale(five_grades(), uniform({80, 70, 60, 50, 40}), Marks(80)),
                      "uniform maximum 80: give one from 81 to 1000000");
}

TEST_CASE("a grade's band goes from its lowest to its highest share over the sets") {
    const std::vector<BoundarySet> sets{{"one", "", Marks(100), {{"A", Marks(80)}, {"B", Marks(60)}}},
                                        {"two", "", Marks(200), {{"A*", Marks(180)}, {"A", Marks(140)}}},
                                        {"three", "", Marks(50), {{"A", Marks(38)}, {"B", Marks(32)}}}};
    const std::vector<GradeBand> bands = grade_bands(sets);
    REQUIRE(bands.size() == 3);
    CHECK(bands[0].grade == "A*");
    CHECK(bands[0].low == bands[0].high);
    CHECK(bands[1].grade == "A");
    CHECK(bands[1].low == 0.7);
    CHECK(bands[1].high == 0.8);
    CHECK(bands[2].grade == "B");
    CHECK(bands[2].low == 0.6);
    CHECK(bands[2].high == 0.64);
    CHECK(grade_bands({}).empty());
}

TEST_CASE(
    "bands of grades are in order of their middles, the highest first; if tied, as the sets name them") {
    const auto order = [](const std::vector<BoundarySet>& sets) {
        std::string grades;
        for (const GradeBand& band : grade_bands(sets))
            grades += band.grade;
        return grades;
    };
    const BoundarySet low = set_of({{"M", Marks(20)}}, 100);
    const BoundarySet high = set_of({{"M", Marks(60)}}, 100);
    CHECK(order({set_of({{"C", Marks(41)}}, 100), low, high}) == "CM");
    CHECK(order({set_of({{"C", Marks(39)}}, 100), low, high}) == "MC");
    CHECK(order({set_of({{"C", Marks(40)}}, 100), low, high}) == "CM");
    CHECK(order({low, high, set_of({{"C", Marks(40)}}, 100)}) == "MC");
}

TEST_CASE("a better raw mark never lowers the uniform mark, and each boundary keeps its grade") {
    std::mt19937 dice(6);
    for (int i = 0; i < 500; ++i) {
        const BoundarySet set = random_set(dice);
        std::vector<int> counts;
        for (std::size_t k = 0; k < set.grades.size(); ++k)
            counts.insert(counts.begin(),
                          (counts.empty() ? pick(dice, 0, 9) : counts.front() + pick(dice, 1, 30)));
        const bool top_is_total = set.grades.front().mark == set.total;
        const auto most =
            top_is_total ? std::nullopt : std::optional(Marks(counts.front() + pick(dice, 1, 30)));
        const UniformScale scale = uniform_scale(set, uniform(counts), most);
        for (int mark = 1; mark <= set.total.count(); ++mark)
            REQUIRE(scaled(scale, Marks(mark)) >= scaled(scale, Marks(mark - 1)));
        for (std::size_t k = 0; k < counts.size(); ++k)
            REQUIRE(scaled(scale, set.grades[k].mark) == Marks(counts[k]));
    }
}

TEST_CASE("boundary sets are equal where name, subject, total, grades and marks are") {
    const BoundarySet set{"Saltmarsh", "pure", Marks(75), {{"A", Marks(60)}, {"B", Marks(50)}}};
    const auto differs = [&](auto change) {
        BoundarySet other = set;
        change(other);
        return !(set == other);
    };
    CHECK(set == set);
    CHECK(differs([](BoundarySet& other) { other.name = "other"; }));
    CHECK(differs([](BoundarySet& other) { other.subject = ""; }));
    CHECK(differs([](BoundarySet& other) { other.total = Marks(80); }));
    CHECK(differs([](BoundarySet& other) { other.grades[1].mark = Marks(49); }));
    CHECK(differs([](BoundarySet& other) { other.grades[1].grade = "C"; }));
    CHECK(differs([](BoundarySet& other) { other.grades.pop_back(); }));
}

TEST_CASE("a top grade that is the whole total leaves no room for a uniform maximum") {
    const BoundarySet set{"Saltmarsh", "", Marks(50), {{"A", Marks(50)}, {"B", Marks(30)}}};
    CHECK_NOTHROW(uniform_scale(set, {Marks(80), Marks(70)}));
    CHECK_THROWS_AS(uniform_scale(set, {Marks(80), Marks(70)}, Marks(100)), Error);
}

TEST_CASE("a guess is a past set with every boundary moved by the same marks, and says that it is one") {
    BoundarySet past = set_of({{"A", Marks(39)}, {"B", Marks(33)}});
    past.uniform = uniform({80, 70});
    past.cap = Marks(51);
    const BoundarySet guess = guess_from(past, 3, "next");
    CHECK(guess.is_guess);
    CHECK(guess.name == "next");
    CHECK(name_of(guess) == "guess: next");
    CHECK(guess.grades[0].mark == Marks(42));
    CHECK(guess.grades[1].mark == Marks(36));
    CHECK(guess.uniform == past.uniform);
    CHECK(guess.cap == Marks(54));
    CHECK(guess_from(past, 14, "next").cap == past.total); // no further than the total
    CHECK(guess_from(past, -33, "next").grades[1].mark == Marks(0));
    CHECK_THROWS_WITH(guess_from(past, -34, "next"), Contains("would move to -1"));
    CHECK_THROWS_WITH(guess_from(past, 24, "next"), Contains("would move to 63, which is not from 0 to 62"));
    CHECK_THROWS_WITH(guess_from(past, 0, "next"), Contains("by 0 marks"));
    CHECK_FALSE(guess == past);
}

TEST_CASE("the bands of boundaries beside totals leave guesses out") {
    const BoundarySet past = set_of({{"A", Marks(31)}});
    const auto bands = grade_bands({past, guess_from(past, 10, "next")});
    REQUIRE(bands.size() == 1);
    CHECK(bands[0].high == 0.5);
    CHECK(grade_bands({guess_from(past, 10, "next")}).empty());
}

TEST_CASE("a set's own uniform marks are one a grade and fall, and a cap lies above the top boundary") {
    BoundarySet set = set_of({{"A", Marks(39)}, {"B", Marks(33)}});
    set.cap = Marks(50);
    CHECK_THROWS_WITH(check_boundary_set(set), Contains("the cap of 50 needs uniform marks"));
    set.uniform = uniform({80});
    CHECK_THROWS_WITH(check_boundary_set(set), Contains("uniform marks: 1 for 2 grades"));
    set.uniform = uniform({70, 70});
    CHECK_THROWS_WITH(check_boundary_set(set), Contains("uniform mark 70, is not below 70"));
    set.uniform = uniform({80, 70});
    CHECK_NOTHROW(check_boundary_set(set));
    set.cap = Marks(62);
    CHECK_NOTHROW(check_boundary_set(set));
    for (const int cap : {39, 63}) {
        set.cap = Marks(cap);
        CHECK_THROWS_WITH(check_boundary_set(set), Contains("must lie above grade A at 39"));
    }
}

TEST_CASE("the least raw mark that brings a uniform mark is found, and none where it takes more than all") {
    const UniformScale scale = uniform_scale(five_grades(), uniform({80, 70, 60, 50, 40}), Marks(100));
    for (int mark = 0; mark <= 100; ++mark) {
        const auto raw = raw_for(scale, Marks(mark));
        REQUIRE(raw);
        CHECK(scaled(scale, *raw) >= Marks(mark));
        if (*raw > Marks(0))
            CHECK(scaled(scale, *raw - Marks(1)) < Marks(mark));
    }
    CHECK_FALSE(raw_for(scale, Marks(101)));
}
