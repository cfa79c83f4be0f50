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

/// A standard error of 2, as for the difference of the two parts: 2, 0, -2, 2, -2.
std::vector<Candidate> six() {
    return {sat("K01", pure_a, "34 20+12"), sat("K02", pure_a, "27 27"),
            sat("K03", pure_a, "20 22"),    sat("K04", paper_of("pure-b", {20, 20}), "9 9"),
            sat("K05", pure_a, "16 14"),    sat("K06", pure_a, "10 12")};
}

std::string all_text(const std::vector<Table>& tables) {
    std::string text;
    for (const Table& table : tables)
        text += text_of(table);
    return text;
}

std::vector<ClassUnder> alike(const std::vector<Candidate>& candidates,
                              const std::vector<BoundarySet>& sets) {
    return held_alike(class_standing(candidates, sets)).at(0);
}

ClassUnder under(const std::vector<Candidate>& candidates, const BoundarySet& set = june) {
    return class_standing(candidates, {set}).at(0);
}

} // namespace

TEST_CASE("each grade has a row, and each set a column with its boundary and how many have the grade") {
    const auto all = alike(six(), {june, set_of("June 2020", 100, {{"A", 60}, {"B", 50}, {"C", 42}})});
    CHECK(all_text(grades_tables(all)) == "grade  June 2019  June 2020\n"
                                          "A*     80: 0 (0)\n"
                                          "A      65: 1 (1)  60: 1 (1)\n"
                                          "B      55: 0 (1)  50: 1 (2)\n"
                                          "C                 42: 1 (3)\n"
                                          "none   4          2\n");
    CHECK(all_text(grades_in_time_tables(all)) == "grade  June 2019  June 2020\n"
                                                  "A*     80: 0 (0)\n"
                                                  "A      65: 0 (0)  60: 0 (0)\n"
                                                  "B      55: 0 (0)  50: 2 (2)\n"
                                                  "C                 42: 1 (3)\n"
                                                  "none   5          2\n");
}

TEST_CASE("sets that the width has no room for follow in tables of their own") {
    std::vector<BoundarySet> sets;
    for (int year = 2010; year < 2020; ++year)
        sets.push_back(set_of("June " + std::to_string(year), 100, {{"A", 65}}));
    const auto tables = grades_tables(alike(six(), sets));
    REQUIRE(tables.size() == 2);
    CHECK(text_of(tables[0]).find("June 2010") == 7);
    CHECK(text_of(tables[0]).find("June 2015") != std::string::npos);
    CHECK(text_of(tables[1]).find("grade  June 2016") == 0);
}

TEST_CASE("each candidate near a boundary has a row with the marks above or below it, the nearest first") {
    const auto all = alike(six(), {june, set_of("June 2020", 100, {{"A", 74}, {"B", 42}})});
    CHECK(all_text(near_tables(all)) == "candidate  unaided  June 2019  June 2020\n"
                                        "K03             42             B +0\n"
                                        "K01             66  A +1\n"
                                        "K02             54  B -1\n");
    CHECK(near_line(all) == "3 of 5 within the standard error of the nearest boundary, by unaided marks,\n"
                            "  the nearest first:\n");
    const auto far = alike(six(), {set_of("2020", 100, {{"A", 90}})});
    CHECK(near_tables(far).empty());
    CHECK(near_line(far) == "Nobody is within the standard error of a boundary.\n");
}

TEST_CASE(
    "where the standard error is longer than half a grade nearly everyone is near, and five are listed") {
    const auto all = alike(
        six(), {set_of("June 2020", 100, {{"A", 67}, {"B", 64}}), set_of("June 2021", 100, {{"A", 50}})});
    CHECK(near_line(all) == "The standard error, 2.0 marks, is more than half of a grade's width (3.0 marks\n"
                            "  in June 2020), so nearly everyone between the boundaries is near one. 1 of 5\n"
                            "  within the standard error of the nearest boundary, by unaided marks, the\n"
                            "  nearest first:\n"); // few all the same

    std::vector<Candidate> many = six();
    for (int i = 1; i < 6; ++i)
        many.push_back(sat("L0" + std::to_string(i), pure_a, "33 " + std::to_string(32 + i % 2)));
    const auto wide = alike(many, {set_of("June 2020", 100, {{"A", 66}, {"B", 64}})});
    CHECK(near_line(wide) ==
          "The standard error, 1.4 marks, is more than half of a grade's width (2.0 marks\n"
          "  in June 2020), so nearly everyone between the boundaries is near one. The 5\n"
          "  nearest, by unaided marks:\n");
    CHECK(lines_of(all_text(near_tables(wide))).size() == 6);
}

TEST_CASE("says who is counted, by which papers, and with which standard error") {
    CHECK(counted_line(under(six())) == "5 candidates counted; 1 whose marks don't fit this total.\n");
    std::vector<Candidate> with_absent = six();
    with_absent.emplace_back().code = "K07";
    CHECK(counted_line(under(with_absent)) ==
          "5 candidates counted; 1 sat nothing in pure; 1 whose marks don't fit this\n"
          "  total.\n");
    CHECK(basis_lines(under(six())) == "Based on pure-a, sat by 5 candidates; standard error 2.0 marks.\n");
    CHECK(counted_line(under({six()[0]})) == "1 candidate counted.\n");
}

TEST_CASE("says why there is no standard error, and then nothing about who is near a boundary") {
    const ClassUnder one = under({six()[0]});
    CHECK(basis_lines(one) ==
          "Based on pure-a, sat by 1 candidate; no standard error: it needs 5 candidates.\n");
    CHECK(near_line({one}).empty());
    std::vector<Candidate> alike;
    for (const char* code : {"K01", "K02", "K03", "K04", "K05"})
        alike.push_back(sat(code, pure_a, alike.size() % 2 == 0 ? "30 30" : "20 40"));
    CHECK(basis_lines(under(alike)) ==
          "Based on pure-a, sat by 5 candidates; no standard error: every candidate has\n"
          "  the same total.\n");

    Candidate two = six()[0];
    two.sittings.push_back({SittingId{2}, paper_of("pure-c", {20, 20}), {monday, {}, {}}, {}});
    two.sittings.back().sitting.parts = parse_line(*two.sittings.back().paper, "9 9");
    CHECK(basis_lines(under({two, six()[1]}, set_of("2020", 140, {{"A", 90}}))) ==
          "Based on pure-a, pure-c, sat by 1 candidate; no standard error: one of the\n"
          "  papers has none.\n");
}

TEST_CASE("sets that no marks fit are named in one line") {
    const auto all = class_standing(
        six(), {june, set_of("June 2021", 99, {{"A", 60}}), set_of("Mock", 62, {{"A", 9}}, "")});
    CHECK(unfit_line(all) == "No marks fit the total of: Mock, out of 62; June 2021, pure, out of 99.\n");
    CHECK(unfit_line({all[1]}).empty());
}

TEST_CASE("says that the only set that fits in a subject shows no range") {
    const BoundarySet other = set_of("June 2020", 100, {{"A", 60}});
    const BoundarySet unfit = set_of("June 2021", 99, {{"A", 60}});
    CHECK(one_set_lines(class_standing(six(), {june, unfit})) ==
          "There is only one set for pure, so no range: boundaries move. Add more series\n"
          "  with 'inkturn boundaries add'.\n");
    CHECK(one_set_lines(class_standing(six(), {june, other})).empty());
    CHECK(one_set_lines(class_standing(six(), {unfit})).empty());
}

TEST_CASE("no line of a class's standing is wider than 80 columns, and all is safe to show") {
    const std::string odd = "\xE2\x80\xAE";
    BoundarySet set =
        set_of(std::string(200, 's'), 100, {{std::string(15, 'g') + odd, 67}, {std::string(16, 'h'), 54}});
    auto candidates = six();
    candidates[0].code = std::string(63, 'k') + odd;
    ClassUnder one = under(candidates, set);
    one.set.subject = std::string(100, 'p') + odd;
    REQUIRE(one.near.size() == 2);
    const std::string text = all_text(grades_tables({one})) + all_text(near_tables({one})) +
                             counted_line(one) + basis_lines(one) + near_line({one}) + one_set_lines({one}) +
                             grades_key() + class_standing_caution();
    CHECK(text.find(odd) == std::string::npos);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        CAPTURE(line);
        CHECK(columns(line) <= Table::full_width);
    }
}
