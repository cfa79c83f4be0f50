#include "inkturn/grades/uniform_mark.hpp"

#include "catch.hpp"

#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;

using Grades = std::vector<std::pair<std::string, int>>;

Grades pairs(const std::vector<GradeBoundary>& boundaries) {
    Grades all;
    for (const GradeBoundary& boundary : boundaries)
        all.emplace_back(boundary.grade, boundary.mark.count());
    return all;
}

Grades filled(const char* top, int top_mark, const char* bottom, int bottom_mark) {
    return pairs(fill({top, Marks(top_mark)}, {bottom, Marks(bottom_mark)}));
}

} // namespace

TEST_CASE("AQA, boundaries of PYA1, June 2006, out of 62: B to D lie between A and E in even quarters",
          "[reference]") {
    CHECK(filled("A", 39, "E", 17) == Grades{{"A", 39}, {"B", 33}, {"C", 27}, {"D", 22}, {"E", 17}});
}

TEST_CASE("OCR, grade boundaries 2023: Chemistry A, Ancient History, Biology A and Business in even quarters",
          "[reference]") {
    CHECK(filled("A", 198, "E", 40) == Grades{{"A", 198}, {"B", 158}, {"C", 118}, {"D", 79}, {"E", 40}});
    CHECK(filled("A", 143, "E", 36) == Grades{{"A", 143}, {"B", 116}, {"C", 89}, {"D", 62}, {"E", 36}});
    CHECK(filled("A", 155, "E", 58) == Grades{{"A", 155}, {"B", 130}, {"C", 106}, {"D", 82}, {"E", 58}});
    CHECK(filled("A", 169, "E", 65) == Grades{{"A", 169}, {"B", 143}, {"C", 117}, {"D", 91}, {"E", 65}});
}

TEST_CASE("OCR, A-level Mathematics, June 2019, out of 300, as in press reports: C lies at 100 between A at "
          "161 and E at 40",
          "[reference]") {
    CHECK(filled("A", 161, "E", 40)[2] == std::pair<std::string, int>{"C", 100});
}

TEST_CASE("Cambridge International, grade thresholds of 9231, June 2013, option AX, out of 200: C and D lie "
          "between B and E in thirds, rounded down",
          "[reference]") {
    const Grades grades = pairs(fill({"B", Marks(140)}, {"E", Marks(76)}, FillRule::thirds));
    CHECK(grades == Grades{{"B", 140}, {"C", 118}, {"D", 97}, {"E", 76}});

    BoundarySet set{"June 2013", "", Marks(200), {{"A", Marks(164)}}};
    for (const auto& [grade, mark] : grades)
        set.grades.push_back({grade, Marks(mark)});
    CHECK_NOTHROW(check_boundary_set(set));
}

TEST_CASE("AQA, boundaries of PYA1, June 2006: with uniform marks 80, 70, 60, 50 and 40 a raw mark of 32 is "
          "68.33, so 68",
          "[reference]") {
    const BoundarySet set{"June 2006", "", Marks(62), fill({"A", Marks(39)}, {"E", Marks(17)})};
    const UniformScale scale = uniform_scale(set, {Marks(80), Marks(70), Marks(60), Marks(50), Marks(40)});
    CHECK(scaled(scale, Marks(32)) == Marks(68));
}
