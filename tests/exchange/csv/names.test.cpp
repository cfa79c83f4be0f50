#include "exchange/csv/names.hpp"
#include "exchange/csv/csv.hpp"

#include "catch.hpp"
#include "problems.hpp"

#include <sstream>
#include <string>

namespace {

using namespace inkturn;
using Catch::Matchers::Matches;

struct ReadNames {
    std::map<std::string, std::string> names;
    std::vector<std::string> problems;
};

ReadNames read_names(const std::string& text) {
    std::istringstream in(text);
    CsvReader rows(in, {});
    ProblemList problems;
    ReadNames read;
    read.names = read_names_rows(rows, problems);
    read.problems = test::texts_of(problems.items);
    return read;
}

TEST_CASE("names are read by code") {
    const ReadNames read = read_names("name;candidate\n Zoë Ash ;K01\nB. Elm;K02\n");
    CHECK(read.problems.empty());
    CHECK(read.names == std::map<std::string, std::string>{{"K01", "Zoë Ash"}, {"K02", "B. Elm"}});
}

TEST_CASE("names stand beside codes under any usual headings, and other columns are left out") {
    const std::map<std::string, std::string> both{{"K01", "Ash"}, {"K02", "Elm"}};
    CHECK(read_names("Code,Student\nK01,Ash\nK02,Elm\n").names == both);
    CHECK(read_names("Student,Name,Form\nK01,Ash,12A\nK02,Elm,12B\n").names == both);
    CHECK(read_names("Names of class 12\nFull name,Candidate number\nAsh,K01\nElm,K02\n").names == both);
    CHECK(read_names("Student ID,Student name\nK01,Ash\nK02,Elm\n").problems.empty());
}

TEST_CASE("a code twice, a name that is missing and a file without names are problems") {
    const ReadNames read = read_names("candidate,name\nK01,Ash\nK01,Elm\nK02,\n,Oak\n");
    REQUIRE(read.problems.size() == 3);
    CHECK_THAT(read.problems[0], Matches("3:1 candidate K01 is already in line 2: .*"));
    CHECK_THAT(read.problems[1], Matches("4:5 candidate K02 has no name here: .*"));
    CHECK_THAT(read.problems[2], Matches("5:1 the row names no candidate.*"));
    CHECK_THAT(read_names("candidate,name\n").problems.at(0), Matches("1:0 no names below .*"));
    CHECK_THAT(read_names("candidate\nK01\n").problems.at(0), Matches("1:0 .*name.*"));
}

} // namespace
