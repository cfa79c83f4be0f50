#include "exchange/csv/boundaries.hpp"
#include "exchange/csv/csv.hpp"

#include "catch.hpp"
#include "problems.hpp"

#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Matches;
using Texts = std::vector<std::string>;

struct Reading {
    Texts sets; ///< `pure/June 2019/62: A=39 B=33`
    Texts problems;
};

Reading read(const std::string& text) {
    std::istringstream in(text);
    CsvReader rows(in, {});
    ProblemList problems;
    Reading reading;
    for (const BoundarySet& set : read_boundaries_rows(rows, problems)) {
        std::string line = set.subject + "/" + set.name + "/" + std::to_string(set.total.count()) + ":";
        for (const GradeBoundary& boundary : set.grades)
            line += " " + boundary.grade + "=" + std::to_string(boundary.mark.count());
        reading.sets.push_back(line);
    }
    reading.problems = test::texts_of(problems.items);
    return reading;
}

/// The one problem of a file.
std::string problem(const std::string& text) {
    const Reading reading = read(text);
    REQUIRE(reading.problems.size() == 1);
    return reading.problems.front();
}

} // namespace

TEST_CASE("a row is a boundary set, a column a grade") {
    const Reading reading = read("set,total,A*,A,a\nJune 2018,62,50,39,0\nJune 2019,75,60,45,30\n");
    CHECK(reading.problems.empty());
    CHECK(reading.sets == Texts{"/June 2018/62: A*=50 A=39 a=0", "/June 2019/75: A*=60 A=45 a=30"});
}

TEST_CASE("subject and set may stand anywhere, and an empty cell is a grade that the set hasn't") {
    const Reading reading =
        read("\xEF\xBB\xBF"
             "Subject; A* ;SET;A;Total;B\r\npure;;June 2018;39;62;33\r\n;50;June 2018;39;62;\r\n");
    CHECK(reading.problems.empty());
    CHECK(reading.sets == Texts{"pure/June 2018/62: A=39 B=33", "/June 2018/62: A*=50 A=39"});
}

TEST_CASE("each problem of a row is told at its cell, once") {
    const Reading reading = read("set,total,subject,A,B,C\n"
                                 ",62,pure,39,33,27\n"
                                 "June 2018,0,pure,39,33,27\n"
                                 "June 2019,62,pure,63,33,x\n"
                                 "June 2020,62,pure,39,39,27\n"
                                 "June 2021,62,\a,39,40,-1\n");
    REQUIRE(reading.problems.size() == 8);
    CHECK_THAT(reading.problems[0], Matches("2:1 a boundary set needs a name, .*"));
    CHECK_THAT(reading.problems[1], Matches("3:11 total '0': give a whole number from 1 to 1000000"));
    CHECK_THAT(reading.problems[2],
               Matches("4:19 boundary set 'June 2019': grade A at 63 is above the total of 62: .*"));
    CHECK_THAT(reading.problems[3], Matches("4:25 grade C, mark 'x': give a whole number from 0 to 1000000"));
    CHECK_THAT(reading.problems[4],
               Matches("5:22 boundary set 'June 2020': grade B at 39 is not below A at 39: .*"));
    CHECK_THAT(reading.problems[5], Matches("6:14 .*subject.*"));
    CHECK_THAT(reading.problems[6],
               Matches("6:19 boundary set 'June 2021': grade B at 40 is not below A at 39: .*"));
    CHECK_THAT(reading.problems[7], Matches("6:22 grade C, mark '-1': .*"));
}

TEST_CASE("a set that appears twice, or has no grade, is a problem with its row") {
    CHECK_THAT(problem("set,total,subject,A\nJune,62,pure,39\nJune,62,,39\nJune,62,pure,39\n"),
               Matches("4:0 boundary set 'June' is already in line 2: give each set one row"));
    CHECK_THAT(problem("set,total,A\nJune,62,\n"),
               Matches("2:0 boundary set 'June': there are no grades: .*"));
    CHECK_THAT(problem("set,total\nJune,62\n"), Matches("2:0 boundary set 'June': there are no grades: .*"));
}

TEST_CASE("a grade's name that can't be is told at its cells") {
    CHECK_THAT(problem("set,total,seventeen letters\nJune,62,39\n"),
               Matches("2:9 boundary set 'June': grade 'seventeen letters': .*16.*"));
}

TEST_CASE("a header that leaves columns open is refused, and its rows are not read") {
    CHECK_THAT(problem("name,total,A\nx,y,z\n"), Matches("1:0 the header has no column set: add it"));
    CHECK_THAT(problem("set,out of,A\nx,y,z\n"), Matches("1:0 the header has no column total: add it"));
    CHECK_THAT(problem("set,total,Set,A\nw,x,y,z\n"),
               Matches("1:11 the column set appears twice: leave one out"));
    CHECK_THAT(problem("set,total,A,B, A\nv,w,x,y,z\n"),
               Matches("1:15 grade A appears twice: leave one column out"));
    CHECK_THAT(problem("set,total,A, \nw,x,y,z\n"), Matches("1:13 the column has no name: .*"));
}

TEST_CASE("a file that holds no boundary sets says so") {
    CHECK_THAT(problem("set,total,A\n"), Matches("1:0 no boundary sets below the header: .*"));
    CHECK_THAT(problem(""), Matches("0:0 the file is empty"));
    CHECK(problem("set,total,A\nJune,62\n").find("2:0 the row has 2 fields") == 0);
}

TEST_CASE("a file has at most a thousand sets, and a set at most 120 grades") {
    std::string sets = "set,total,A\n";
    for (int i = 0; i < 1000; ++i)
        sets += "s" + std::to_string(i) + ",62,39\n";
    CHECK(read(sets).sets.size() == 1000);
    CHECK_THAT(problem(sets + "more,62,39\nfurther,62,39\n"), Matches("1002:0 there are more than 1000 .*"));
    for (const int count : {120, 121, 8000}) {
        std::string names = "set,subject,total";
        std::string marks = "June,pure,100000";
        for (int i = 0; i < count; ++i) {
            names += ",g" + std::to_string(i);
            marks += "," + std::to_string(90000 - i);
        }
        if (count == 120)
            CHECK(read(names + "\n" + marks + "\n").problems.empty());
        else
            CHECK_THAT(problem(names + "\n" + marks + "\n"), Matches("1:0 .* and a set may have 120 grades"));
    }
}
