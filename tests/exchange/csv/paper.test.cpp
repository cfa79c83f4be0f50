#include "exchange/csv/paper.hpp"
#include "catch.hpp"
#include "exchange/csv/csv.hpp"
#include "problems.hpp"

#include <sstream>
#include <string>
#include <vector>

using namespace inkturn;
using Catch::Matchers::Matches;

namespace {

struct Read {
    std::vector<Part> parts;
    std::vector<std::string> problems; ///< "line:column message"
};

Read read(const std::string& text) {
    std::istringstream in(text);
    CsvReader rows(in, {});
    ProblemList problems;
    Read result{read_paper_rows(rows, problems), {}};
    result.problems = test::texts_of(problems.items);
    return result;
}

std::string only_problem(const std::string& text) {
    const Read result = read(text);
    CAPTURE(result.problems);
    REQUIRE(result.problems.size() == 1);
    return result.problems[0];
}

} // namespace

TEST_CASE("a paper's file has a row for each part") {
    const Read result = read("part,marks\n1,5\n2a,4\nQ2 (b),8\n");
    REQUIRE(result.problems.empty());
    REQUIRE(result.parts.size() == 3);
    CHECK(result.parts[0].label == "1");
    CHECK(result.parts[0].max == Marks(5));
    CHECK(result.parts[2].label == "2b");
    CHECK(result.parts[2].max == Marks(8));
    CHECK(result.parts[2].topic.empty());
}

TEST_CASE("a paper's columns may stand in any order and their names in any case") {
    const Read result = read("Topic; CODES ;Marks;PART\nvectors;M1 A1;2;1\n;;3;2\n");
    REQUIRE(result.problems.empty());
    REQUIRE(result.parts.size() == 2);
    CHECK(result.parts[0].topic == "vectors");
    CHECK(result.parts[0].codes == "M1 A1");
    CHECK(result.parts[1].label == "2");
    CHECK(result.parts[1].codes.empty());
}

TEST_CASE("a part may state the share of its marks from which it is got") {
    const Read result = read("part,marks,got_at\n1,25,80%\n2,25,80\n3,25,\n");
    REQUIRE(result.problems.empty());
    CHECK(result.parts[0].got_at == GotAt(80));
    CHECK(result.parts[1].got_at == GotAt(80));
    CHECK_FALSE(result.parts[2].got_at.has_value());
    for (const std::string share : {"0", "101%", "most", "8.0", "80%%"})
        CHECK_THAT(only_problem("part,marks,got_at\n1,25," + share + "\n"),
                   Matches("2:6 got-at '.*': give the share .*, 1% to 100%, such as 80%"));
}

TEST_CASE("a paper's marks are whole, `010` being ten") {
    CHECK(read("part,marks\n1,010\n").parts.at(0).max == Marks(10));
    for (const std::string marks :
         {"0", "-1", "+3", "2.5", "NaN", "1e2", "501", "", " 3", "x", "123456789012345678901234567890"})
        CHECK_THAT(only_problem("part,marks\n1,2\n2," + marks + "\n"),
                   Matches("3:3 part 2, marks '.*': give a whole number from 1 to 500"));
}

TEST_CASE("a paper has each part once, however it is written") {
    CHECK_THAT(only_problem("part,marks\n7b,5\n1,2\nQ7 (b),5\n"),
               Matches("4:1 part 7b appears twice, first in line 2: .*"));
}

TEST_CASE("a paper's part must have a label") {
    CHECK_THAT(only_problem("part,marks\nb7x?,5\n"), Matches("2:1 'b7x\\?' is not a part label: .*"));
    CHECK_THAT(only_problem("marks,part\n5,\n"), Matches("2:3 '' is not a part label: .*"));
}

TEST_CASE("a part's codes must be codes and add up to its marks") {
    CHECK_THAT(only_problem("part,marks,codes\n1,3,M1 A1\n"), Matches("2:5 part 1: .* add up to 2, .*"));
    CHECK_THAT(only_problem("part,marks,codes\n1,3,M1 2A\n"), Matches("2:5 '2A' is not a mark code: .*"));
    CHECK_THAT(only_problem("part,marks,topic\n1,3,a\x07\n"), Matches("2:5 .*topic: .*"));
}

TEST_CASE("each problem of a paper's row is listed") {
    CHECK(read("part,marks\n?,x\n!,0\n").problems.size() == 4);
}

TEST_CASE("a paper's header must have part and marks once and nothing unknown") {
    CHECK_THAT(only_problem("part,topic\n1,x\n"), Matches("1:0 the header has no column marks: .*"));
    CHECK_THAT(only_problem("part,marks,level\n1,2,3\n"),
               Matches("1:12 the column 'level' is not one of .*"));
    CHECK_THAT(only_problem("part,marks, Part\n1,2,1\n"), Matches("1:12 the column part appears twice.*"));
    CHECK(read("1,5\n2,4\n").problems.size() == 4);
}

TEST_CASE("a ragged row of a paper says how many fields it has and should have") {
    CHECK_THAT(only_problem("part,marks\n1\n"), Matches("2:0 the row has 1 field and the header has 2.*"));
    CHECK_THAT(only_problem("part,marks\n1,2,3\n"), Matches("2:0 the row has 3 fields and .*"));
}

TEST_CASE("a paper's rows of empty cells are passed over") {
    CHECK(read("part,marks\n,\n1,2\n,\n").parts.size() == 1);
}

TEST_CASE("a paper's file must have parts") {
    CHECK_THAT(only_problem(""), Matches("0:0 the file is empty"));
    CHECK_THAT(only_problem("part,marks\n"), Matches("1:0 no parts below the header: .*"));
}

TEST_CASE("a paper has at most 500 parts") {
    std::string text = "part,marks\n";
    for (int i = 1; i <= 500; ++i)
        text += std::to_string(i) + ",1\n";
    CHECK(read(text).parts.size() == 500);
    CHECK_THAT(only_problem(text + "501,1\n502,1\n"), Matches("502:0 a paper has at most 500 parts"));
}

TEST_CASE("what ends the reading of a paper's file is its last problem") {
    const Read result = read("part,marks\n1,x\n2,\"3\n");
    REQUIRE(result.problems.size() == 2);
    CHECK_THAT(result.problems[1], Matches("3:3 .*not closed"));
}
