#include "view/text/class_standing.hpp"

#include "boundary_set.hpp"
#include "catch.hpp"
#include "papers.hpp"
#include "view/text/lines.hpp"
#include "view/text/text.hpp"

#include <memory>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

Candidate sat(const std::string& code, const std::shared_ptr<const Paper>& paper, const std::string& marks) {
    Candidate candidate;
    candidate.code = code;
    candidate.sittings = {{SittingId{1}, paper, {monday, {}, parse_line(*paper, marks)}, {}}};
    return candidate;
}

const auto pure_a = paper_of("pure-a", {50, 50});
const BoundarySet june = set_of("June 2019", 100, {{"A*", 80}, {"A", 65}, {"B", 55}});

/// A standard error of 2, which is that of the difference of the two parts.
std::vector<Candidate> four() {
    return {sat("K01", pure_a, "34 20+12"), sat("K02", pure_a, "27 27"), sat("K03", pure_a, "20 22"),
            sat("K04", paper_of("pure-b", {20, 20}), "9 9")};
}

ClassUnder under(const std::vector<Candidate>& candidates, const BoundarySet& set = june) {
    return class_standing(candidates, {set}).at(0);
}

} // namespace

TEST_CASE("each grade has a row with those who have it and those who have it or a better one") {
    CHECK(text_of(grades_table(under(four()))) == "grade  from  own  or better  in time  or better\n"
                                                  "A*       80    0          0        0          0\n"
                                                  "A        65    1          1        0          0\n"
                                                  "B        55    0          1        0          0\n"
                                                  "none           2                   3\n");
}

TEST_CASE("those near a boundary have a row each with the marks they are above or below it") {
    CHECK(text_of(near_table(under(four())).value()) == "candidate  own  grade  from  by  error\n"
                                                        "K01         66  A        65  +1    2.0\n"
                                                        "K02         54  B        55  -1    2.0\n");
    CHECK(near_line(under(four())) ==
          "2 of 3 within the standard error of the nearest boundary, by own marks:\n");
    const ClassUnder far = under(four(), set_of("2020", 100, {{"A", 90}}));
    CHECK_FALSE(near_table(far));
    CHECK(near_line(far) == "Nobody stands within the standard error of a boundary.\n");
}

TEST_CASE("who is counted, and by which papers, is said with the standard error") {
    CHECK(counted_line(under(four())) == "3 candidates counted; 1 not: no marks that fit the set's total.\n");
    CHECK(basis_lines(under(four())) == "Taken of 3 candidates: pure-a; standard error 2.0 marks.\n");
    CHECK(counted_line(under({four()[0]})) == "1 candidate counted.\n");
}

TEST_CASE("why there is no standard error is said, and then nobody is said to be far from a boundary") {
    const ClassUnder one = under({four()[0]});
    CHECK(basis_lines(one) ==
          "Taken of 1 candidate: pure-a; no standard error, since one candidate alone has\n"
          "  sat the paper.\n");
    CHECK(near_line(one).empty());
    CHECK(basis_lines(under({sat("K01", pure_a, "30 30"), sat("K02", pure_a, "20 40")})) ==
          "Taken of 2 candidates: pure-a; no standard error, since every candidate has\n"
          "  the same total.\n");

    Candidate two = four()[0];
    two.sittings.push_back({SittingId{2}, paper_of("pure-c", {20, 20}), {monday, {}, {}}, {}});
    two.sittings.back().sitting.parts = parse_line(*two.sittings.back().paper, "9 9");
    CHECK(basis_lines(under({two, four()[1]}, set_of("2020", 140, {{"A", 90}}))) ==
          "Taken of 1 candidate: pure-a, pure-c; no standard error, since one of them has\n"
          "  none.\n");
}

TEST_CASE("a set that is the only one to fit in its subject is said to show no range") {
    const BoundarySet other = set_of("June 2020", 100, {{"A", 60}});
    const BoundarySet unfit = set_of("June 2021", 99, {{"A", 60}});
    CHECK(one_set_lines(class_standing(four(), {june, unfit})) ==
          "Of pure there is one set alone, which shows no range: boundaries move, and\n"
          "  more series tell more. Add them with 'inkturn boundaries add'.\n");
    CHECK(one_set_lines(class_standing(four(), {june, other})).empty());
    CHECK(one_set_lines(class_standing(four(), {unfit})).empty());
}

TEST_CASE("no line of a class's standing is wider than 80 columns, and all is safe to show") {
    const std::string odd = "\xE2\x80\xAE";
    BoundarySet set =
        set_of(std::string(200, 's'), 100, {{std::string(15, 'g') + odd, 67}, {std::string(16, 'h'), 54}});
    auto candidates = four();
    candidates[0].code = std::string(63, 'k') + odd;
    ClassUnder one = under(candidates, set);
    one.set.subject = std::string(100, 'p') + odd;
    REQUIRE(one.near.size() == 2);
    const std::string text = text_of(grades_table(one)) + text_of(near_table(one).value()) +
                             counted_line(one) + basis_lines(one) + near_line(one) + one_set_lines({one}) +
                             class_standing_caution();
    CHECK(text.find(odd) == std::string::npos);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        CAPTURE(line);
        CHECK(columns(line) <= Table::full_width);
    }
}
