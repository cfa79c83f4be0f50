#include "view/text/standing.hpp"

#include "boundary_set.hpp"
#include "catch.hpp"
#include "papers.hpp"
#include "view/text/lines.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <memory>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

std::shared_ptr<const Paper> paper_of(const std::string& id, int marks) {
    std::vector<Part> parts;
    for (int left = marks; left > 0; left -= 500)
        parts.push_back({std::to_string(parts.size() + 1), Marks(std::min(left, 500)), "", ""});
    return std::make_shared<const Paper>(PaperHead{id, "", "pure", {}, RetryBy::question}, std::move(parts));
}

const BoundarySet hard = set_of("June 2019", 100, {{"A", 65}, {"B", 55}, {"C", 45}});
const BoundarySet easy = set_of("June 2022", 100, {{"A*", 80}, {"A", 60}, {"B", 50}, {"C", 40}});
const BoundarySet harsh = set_of("June 2023", 100, {{"A", 90}, {"B", 84}, {"C", 70}});

/// Foresees 53% of the next paper.
std::optional<UncertainShare> fifty_three_percent(const std::string&) {
    return UncertainShare({{1, 0.53, 0.06}});
}

SubjectStanding in_pure(std::vector<SittingRecord> sittings, std::vector<BoundarySet> sets) {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings = std::move(sittings);
    return standing_in("pure", candidate, sets, fifty_three_percent).subjects.at(0);
}

/// 50 in time, 12 in overtime, 20 corrected, of 100.
SubjectStanding example(const std::vector<BoundarySet>& sets = {hard, easy, harsh}) {
    return in_pure({sat(1, paper_of("pure-a", 100), "50+12+20")}, sets);
}

/// Three papers, the last of which is of 100.
SubjectStanding three_papers(const std::vector<BoundarySet>& sets) {
    return in_pure({sat(1, paper_of("pure-a", 60), "30+6"), sat(2, paper_of("pure-b", 140), "80+18"),
                    sat(3, paper_of("pure-c", 100), "50+3+7")},
                   sets);
}

} // namespace

TEST_CASE("each set has a row: the grade in time, unaided and corrected, with the marks clear and short") {
    CHECK(text_of(sets_table(example())) == "set         of  in time       unaided       all inks\n"
                                            "June 2019  100  C     +5  -5  B     +7  -3  A    +17\n"
                                            "June 2022  100  B     +0 -10  A     +2 -18  A*    +2\n"
                                            "June 2023  100  none     -20  none      -8  C    +12  -2\n");
}

TEST_CASE("each grade has a row: in how many sets it was reached, and the cushion over the hardest") {
    CHECK(text_of(outlook_table(example())) == "grade      in time      unaided     all inks  hardest set\n"
                                               "A*     0 of 1  -30  0 of 1  -18  1 of 1   +2  June 2022\n"
                                               "A      0 of 3  -40  1 of 3  -28  2 of 3   -8  June 2023\n"
                                               "B      1 of 3  -34  2 of 3  -22  2 of 3   -2  June 2023\n"
                                               "C      2 of 3  -20  2 of 3   -8  3 of 3  +12  June 2023\n");
}

TEST_CASE("each total names the papers and days it is based on") {
    CHECK(basis_lines(example()) ==
          "Based on pure-a (out of 100), sat on Tue 3 Nov 2026: 50 in time, 62 unaided,\n"
          "  20 corrected.\n");
    CHECK(basis_lines(three_papers({hard, set_of("2020", 300, {{"A", 200}}), easy})) ==
          "Based on pure-c (out of 100), sat on Thu 5 Nov 2026: 50 in time, 53 unaided, 7\n"
          "  corrected.\n"
          "Based on pure-a, pure-b, pure-c (out of 300), the last sat on Thu 5 Nov 2026:\n"
          "  160 in time, 187 unaided, 7 corrected.\n");
}

TEST_CASE("what is foreseen has two ranges, and under each set what the ends of the wide one are worth") {
    CHECK(prediction_lines(three_papers({hard, easy, harsh}), {"pure"}) ==
          "Next unseen paper, out of 100: 48 to 58 marks in time as often as not, 43 to\n"
          "  63 nine times in ten, if it is like the papers on file. Ranges, not a\n"
          "  predicted grade.\n"
          "  June 2019: 43 is no grade, 2 short of C; 63 is B, 8 clear, 2 short of A.\n"
          "  June 2022: 43 is C, 3 clear, 7 short of B; 63 is A, 3 clear, 17 short of A*.\n"
          "  June 2023: 43 is no grade, 27 short of C; 63 is no grade, 7 short of C.\n");
}

TEST_CASE("with fewer than three papers nothing is foreseen") {
    CHECK(prediction_lines(example(), {"pure"}) ==
          "Next unseen paper, out of 100: nothing yet; it takes three different papers of\n"
          "  one subject, each sat whole for the first time.\n");
    CHECK(prediction_lines(example(), {"art", "pure"}) ==
          "Next unseen paper, out of 100: nothing, as the papers sat whole are of several\n"
          "  subjects, art and pure: name one with --subject.\n");
}

TEST_CASE("a page has a column for the next paper where any is foreseen") {
    const auto standing_of = [](const SubjectStanding& in) {
        CandidateStanding standing{"K07", "pure", {in}, {}, {}};
        return standing_page_table(standing);
    };
    const HtmlTable table = standing_of(three_papers({hard, easy}));
    REQUIRE(table.columns.back().title == "next paper, 90%");
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[0].back() == "43 to 63: 43 is no grade, 2 short of C; 63 is B, 8 clear, 2 short of A");
    CHECK(standing_of(example()).columns.back().title != "next paper, 90%");
}

TEST_CASE("pace and corrections are worth marks, and grades over all sets") {
    CHECK(worth_lines(example()) == "Pace, out of 100: worth 12 marks (overtime), 0 to 1 grades by set.\n"
                                    "Corrections, out of 100: worth 20 marks, 1 grade under every set.\n");
    CHECK(worth_lines(in_pure({sat(1, paper_of("pure-a", 100), "65+1")}, {hard})) ==
          "Pace, out of 100: worth 1 mark (overtime), no grade under the one set.\n"
          "Corrections, out of 100: worth 0 marks, no grade under the one set.\n");
}

TEST_CASE("says that one set shows no range") {
    CHECK(sets_key(example()).find("One set") == std::string::npos);
    CHECK(sets_key(example({hard})).find("One set shows no range: boundaries move, so add more") !=
          std::string::npos);
}

TEST_CASE("sets that fit no total are named with the totals there are, and what to do") {
    const std::vector<BoundarySet> sets{set_of("2020", 62, {{"A", 39}}), hard,
                                        set_of("2018", 40, {{"A", 39}}), set_of("2021", 62, {{"A", 40}})};
    CHECK(unmatched_lines(three_papers(sets)) ==
          "Out of 40, which fits nothing sat: 2018.\n"
          "Out of 62, which fits nothing sat: 2020, 2021.\n"
          "The papers sat have 60, 100 and 140 marks, 300 together.\n"
          "A set is compared with a paper of as many marks, or with all papers of its\n"
          "  subject together if they add up to it: log what is missing, or correct the set\n"
          "  ('inkturn boundaries list').\n");
    CHECK(unmatched_lines(example({sets[0]})).find("The papers sat have 100 marks.\n") != std::string::npos);
    CHECK(unmatched_lines(in_pure({}, {hard})).find("\nNo paper in pure has been sat as a whole.\n") !=
          std::string::npos);
    CHECK(unmatched_lines(example({hard})).empty());
}

TEST_CASE("says nothing about totals if no set fits") {
    const SubjectStanding in = example({set_of("2020", 62, {{"A", 39}})});
    CHECK(basis_lines(in).empty());
    CHECK(sets_key(in).empty());
    CHECK(prediction_lines(in, {}).empty());
    CHECK(worth_lines(in).empty());
}

TEST_CASE("no line of a standing is wider than 80 columns, whatever the names, grades and marks") {
    const std::string name(196, 's');
    const std::string grade(15, 'g');
    const std::string marks = "500+0 " + std::string("500 200+100+100 ") + "-";
    std::vector<SittingRecord> sittings;
    for (int i = 1; i <= 4; ++i)
        sittings.push_back(sat(i, paper_of(std::string(63, 'p') + std::to_string(i), 2000), marks));
    std::vector<BoundarySet> sets;
    for (const int total : {2000, 8000, 7})
        sets.push_back(set_of(name + std::to_string(total), total,
                              {{grade + "1", total}, {grade + "2", total / 2}, {grade + "3", 1}}));
    const SubjectStanding in = in_pure(sittings, sets);
    REQUIRE(in.standing.under.size() == 2);
    const std::string all = text_of(sets_table(in)) + text_of(outlook_table(in)) + basis_lines(in) +
                            sets_key(in) + prediction_lines(in, {"art", "pure"}) + worth_lines(in) +
                            unmatched_lines(in) + standing_caution();
    std::istringstream lines(all);
    for (std::string line; std::getline(lines, line);) {
        CAPTURE(line);
        CHECK(columns(line) <= Table::full_width);
    }
}

TEST_CASE("names of sets and grades are shown as a terminal may safely show them") {
    const std::string odd = "\xE2\x80\xAE";
    const SubjectStanding in =
        three_papers({set_of("x" + odd, 100, {{"A" + odd, 20}}), set_of("y" + odd, 7, {{"A", 2}})});
    for (const std::string& text : {text_of(sets_table(in)), text_of(outlook_table(in)),
                                    prediction_lines(in, {"pure"}), unmatched_lines(in)}) {
        CHECK(text.find(odd) == std::string::npos);
        CHECK(text.find("\\u202e") != std::string::npos);
    }
}
