#include "catch.hpp"
#include "exchange/class/class_text.hpp"

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Matches;

namespace {

const Day monday = day(2026, 11, 23);

/// Read as a file of `pure-1`, sat on Monday where it states no date.
ClassFile read(const std::string& text) {
    ClassFileOptions options = no_options();
    options.paper = "pure-1";
    options.date = monday;
    return read_class(text, options);
}

ClassFile read_undated(const std::string& text) {
    ClassFileOptions options = no_options();
    options.paper = "pure-1";
    return read_class(text, options);
}

/// Read as a file of a paper that is not on file.
ClassFile read_new(const std::string& text) {
    ClassFileOptions options = no_options();
    options.paper = "new-2";
    options.date = monday;
    return read_class(text, options);
}

/// Of `pure-1`, with a doubt settled.
ClassFile read_settled(const std::string& text, const std::string& answer) {
    ClassFileOptions options = no_options();
    options.paper = "pure-1";
    options.date = day(2026, 11, 23);
    options.accepted = {answer};
    return read_class(text, options);
}

} // namespace

TEST_CASE("a wide file has a candidate's marks in a row") {
    const ClassFile csv = read("candidate,1,2a,7b\nK07,3,-,2+1+3:method\nK08,5,0,6\n");
    REQUIRE(problems(csv).empty());
    CHECK(csv.rows == 2);
    CHECK(csv.candidates == std::vector<std::string>{"K07", "K08"});
    REQUIRE(csv.papers.size() == 1);
    CHECK(csv.papers[0].on_file);
    REQUIRE(csv.sittings.size() == 2);
    CHECK(csv.sittings[0].day == monday);
    CHECK(csv.sittings[0].line == 2);
    CHECK(marks_of(csv.sittings[0]) == "3 - 2+1+3:method");
    CHECK(csv.sittings[1].candidate == 1);
    CHECK(marks_of(csv.sittings[1]) == "5 0 6");
}

TEST_CASE("a wide file's columns may stand in any order, their labels in any form") {
    const ClassFile csv = read("Candidate;Total;Q7 (b);DATE; 2A ;q1\nK07;9;1;2026-11-20;3;5\n");
    REQUIRE(problems(csv).empty());
    CHECK(csv.sittings.at(0).day == day(2026, 11, 20));
    CHECK(marks_of(csv.sittings.at(0)) == "5 3 1");
}

TEST_CASE("a row without a mark is an absence and makes no sitting") {
    const ClassFile csv = read("candidate,date,total,1,2a,7b\nK07,,,,,\nK08,,0,,,\nK09,,0,0,0,-\n");
    REQUIRE(problems(csv).empty());
    CHECK(csv.rows == 3);
    CHECK(csv.absent == 2);
    CHECK(csv.candidates.size() == 3);
    REQUIRE(csv.sittings.size() == 1);
    CHECK(csv.sittings[0].candidate == 2);
}

TEST_CASE("an absence with a total is a problem") {
    CHECK_THAT(only_problem(read("candidate,total,1,2a,7b\nK07,9,,,\n")),
               Matches("2:5 the total is 9, but the row's unaided marks add up to 0: .*"));
}

TEST_CASE("an empty cell between marks is a problem") {
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\nK07,3,2,\n")),
               Matches("2:9 no mark for 7b: write - if it was not attempted, not-set if it was not set"));
}

TEST_CASE("a total is checked against the row's unaided marks") {
    const std::string header = "candidate,total,1,2a,7b\n";
    CHECK(problems(read(header + "K07,6,3,-,2+1+3\n")).empty());
    CHECK(problems(read(header + "K07,,3,-,2+1+3\n")).empty());
    CHECK_THAT(only_problem(read(header + "K07,9,3,-,2+1+3\n")),
               Matches("2:5 the total is 9, but the row's unaided marks add up to 6: .*"));
    CHECK(problems(read(header + "K07,6.0,3,-,2+1+3\n")).empty());
    CHECK_THAT(only_problem(read(header + "K07,6.5,3,-,2+1+3\n")), Matches("2:5 total '6.5': .*"));
}

TEST_CASE("a row of maxima makes a paper that is not on file") {
    const ClassFile csv = read_new("candidate,total,Q3,1a\nMax,6,4,2\nK07,5,3,2\n");
    REQUIRE(problems(csv).empty());
    CHECK(csv.rows == 1);
    REQUIRE(csv.papers.size() == 1);
    CHECK_FALSE(csv.papers[0].on_file);
    const Paper& made = *csv.papers[0].paper;
    CHECK(made.id() == "new-2");
    CHECK(made.subject().empty());
    REQUIRE(made.parts().size() == 2);
    CHECK(made.parts()[0].label == "3");
    CHECK(made.parts()[0].max == Marks(4));
    CHECK(made.parts()[1].label == "1a");
    CHECK(csv.candidates == std::vector<std::string>{"K07"});
    CHECK(marks_of(csv.sittings.at(0)) == "3 2");
}

TEST_CASE("a paper that is not on file needs its maxima in the first row") {
    CHECK_THAT(only_problem(read_new("candidate,1,2\nK07,3,4\nK08,3,4\n")),
               Matches("2:1 paper new-2 is not on file: add it with paper add, or put the maxima into the "
                       "first row .*"));
    CHECK_THAT(only_problem(read_new("candidate,1,2\nK07,3,4\nmax,3,4\n")), Matches("2:1 paper new-2 .*"));
}

TEST_CASE("maxima must be whole numbers above nought") {
    for (const std::string max : {"0", "501", "-1", "4.5", "NaN", "", "x"})
        CHECK_THAT(only_problem(read_new("candidate,1,2\nmax,3," + max + "\nK07,3,1\n")),
                   Matches("2:7 part 2, maximum '.*': give a whole number from 1 to 500"));
}

TEST_CASE("maxima must agree with a paper on file, wherever their row is") {
    CHECK(problems(read("candidate,1,2a,7b\nK07,1,2,3\nmax,5,4,6\n")).empty());
    CHECK(problems(read_settled("candidate,1,2a,7b\nmax,5,3,7\nK07,1,2,3\n", "max-rows")) ==
          std::vector<std::string>{"2:7 part 2a has the maximum 3 here and 4 on file: they must agree",
                                   "2:9 part 7b has the maximum 7 here and 6 on file: they must agree"});
}

TEST_CASE("a total of maxima is checked against them") {
    CHECK_THAT(only_problem(read("candidate,1,2a,7b,total\nmax,5,4,6,16\nK07,1,2,3,6\n")),
               Matches("2:11 the total is 16, but the maxima add up to 15: .*"));
}

TEST_CASE("a second row of maxima is a problem") {
    const std::string text = "candidate,1,2a,7b\nmax,5,4,6\nK07,1,2,3\nMAX,5,4,6\n";
    CHECK(only_doubt(read(text)) == DoubtKind::max_row);
    CHECK_THAT(only_problem(read_settled(text, "max-rows")),
               Matches("4:1 a second row of maximum marks, the first is in line 2: .*"));
    const ClassFile csv = read_settled(text, "max-candidates");
    CHECK(csv.candidates == std::vector<std::string>{"K07", "MAX"});
}

TEST_CASE("marks of a wide file that are none are placed in their cell") {
    for (const std::string marks : {"5", "-1", "+1", "2.5", "NaN", "1e0", "1+2+2", "1+1+1+1", "4:slip",
                                    "1:ill", "123456789012345678901234567890"})
        CHECK_THAT(only_problem(read("candidate,1,2a,7b\nK07,3," + marks + ",1\n")),
                   Matches("2:7 marks '.*': .*"));
    CHECK(problems(read("candidate,1,2a,7b\nK07,x,y,1\n")).size() == 2);
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\nK07,x,y,z\n")),
               Matches("2:5 the row has 'x' and no marks: .*"));
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\nK07,,abs,sick\n")),
               Matches("2:10 the row has 'sick' and no marks: .*"));
}

TEST_CASE("which marks were earned is not said in a wide file") {
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\nK07,3,1:01,1\n")),
               Matches("2:7 marks '1:01': only a reason may follow them"));
}

TEST_CASE("`010` is ten in a wide file") {
    CHECK(marks_of(read_new("candidate,1\nmax,010\nK07,010\n").sittings.at(0)) == "10");
    CHECK(marks_of(read_new("candidate,1\nmax,10\nK07,0010\n").sittings.at(0)) == "10");
}

TEST_CASE("a column of a wide file that is not a part is a problem") {
    const ClassFile noted = read("candidate,1,2a,7b,Note\nK07,1,2,3,x\n");
    CHECK(problems(noted).empty());
    CHECK(noted.reading.columns_ignored == std::vector<std::string>{"Note"});
    CHECK(only_doubt(read("candidate,1,2a,7b,Locker\nK07,1,2,3,x\n")) == DoubtKind::column);
    CHECK(read("candidate,1,2a,7b,Locker\nK07,1,2,3,\n").doubts.empty());
    CHECK(problems(read("candidate,1,2a,7b,\nK07,1,2,3,\n")).empty());
    CHECK_THAT(only_problem(read("candidate,1,2a,7b,\nK07,1,2,3,x\n")),
               Matches("2:11 the column of 'x' has no heading: .*"));
    CHECK_THAT(only_problem(read("candidate,1,2a,7b,9\nK07,1,2,3,4\n")),
               Matches("1:19 paper pure-1 has no part 9: .*"));
}

TEST_CASE("a column that a wide file lacks is named") {
    CHECK_THAT(
        only_problem(read("candidate,2a\nK07,1\n")),
        Matches("1:0 the header has no column for 1, 7b of paper pure-1: add it, or name .* with --only"));
}

TEST_CASE("a column that appears twice is a problem") {
    CHECK_THAT(only_problem(read("candidate,1,2a,7b,Q7 (b)\nK07,1,2,3,3\n")),
               Matches("1:19 the column 'Q7 \\(b\\)' is part 7b for the second time: .*"));
    CHECK_THAT(only_problem(read("candidate,date,1,2a,7b,Date\nK07,,1,2,3,\n")),
               Matches("1:24 the column date appears twice: .*"));
    CHECK_THAT(only_problem(read("candidate,total,1,2a,7b,total\nK07,,1,2,3,\n")),
               Matches("1:25 the column 'total' is a total for the second time: .*"));
    CHECK_THAT(only_problem(read("candidate,1,2a,7b,candidate\nK07,1,2,3,K08\n")),
               Matches("1:19 the column candidate appears twice: .*"));
}

TEST_CASE("a wide file's header has a column of candidates, in any place") {
    CHECK_THAT(only_problem(read("K07,1,2,3\nK08,1,2,3\n")), Matches("1:0 no line at the top is .*"));
    CHECK(marks_of(read("1,2a,candidate,7b\n3,4,K07,5\n").sittings.at(0)) == "3 4 5");
}

TEST_CASE("a wide file needs a paper") {
    CHECK_THAT(only_problem(read_class("candidate,1\nK07,3\n", no_options())),
               Matches("1:0 .* use --paper ID"));
    ClassFileOptions options = no_options();
    options.paper = "Pure 1";
    CHECK_THAT(only_problem(read_class("candidate,1\nK07,3\n", options)),
               Matches("0:0 paper id 'Pure 1': .*"));
}

TEST_CASE("a wide file without a date by column or option is a problem once") {
    CHECK_THAT(only_problem(read_undated("candidate,1,2a,7b\nK07,1,2,3\nK08,1,2,3\n")),
               Matches("1:0 the sittings have no date: use --date, or add a column date"));
}

TEST_CASE("a row without a date is a problem where no option gives one") {
    const ClassFile csv = read_undated("candidate,date,1,2a,7b\nK07,2026-11-20,1,2,3\nK08,,1,2,3\nK09,,,,\n");
    CHECK_THAT(only_problem(csv), Matches("3:5 the row has no date: write one, or use --date"));
}

TEST_CASE("dates of a wide file must be ISO, in the calendar and not after today") {
    const auto dated = [](const std::string& date) {
        return only_problem(read("candidate,date,1,2a,7b\nK07," + date + ",1,2,3\n"));
    };
    CHECK_THAT(dated("10/11/2026"), Matches("2:5 '10/11/2026': say which of the numbers is the day: .*"));
    CHECK_THAT(dated("2026-02-30"), Matches("2:5 .*calendar"));
    CHECK_THAT(dated("1899-12-31"), Matches("2:5 .* outside .*"));
    CHECK_THAT(dated("2201-01-01"), Matches("2:5 .* outside .*"));
    CHECK_THAT(dated("2026-11-26"), Matches("2:5 .*2026-11-26 is after today, 2026-11-25: .*"));
    ClassFileOptions options = no_options();
    options.paper = "pure-1";
    options.date = day(2026, 11, 26);
    CHECK_THAT(only_problem(read_class("candidate,1,2a,7b\nK07,1,2,3\n", options)),
               Matches("0:0 the date 2026-11-26 is after today, 2026-11-25: .*--date"));
}

TEST_CASE("the same candidate twice on a day is a problem") {
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\nK07,1,2,3\nK08,1,2,3\nK07,1,2,3\n")),
               Matches("4:1 candidate K07 has a second row for 2026-11-23, first in line 2: .*"));
    CHECK(problems(read("candidate,date,1,2a,7b\nK07,2026-11-20,1,2,3\nK07,,1,2,3\n")).empty());
}

TEST_CASE("a candidate's code must be one") {
    const std::string long_code(64, 'k');
    CHECK(problems(read("candidate,1,2a,7b\n" + long_code + ",1,2,3\n")).empty());
    for (const std::string& code : {std::string("K\x7F"), long_code + "k"})
        CHECK_THAT(only_problem(read("candidate,1,2a,7b\n" + code + ",1,2,3\n")),
                   Matches("2:1 candidate .*"));
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\n,1,2,3\n")), Matches("2:1 the row has no code: .*"));
}

TEST_CASE("notes of one cell below a wide file's table are no ragged rows") {
    const ClassFile csv = read("candidate,1,2a,7b\nK07,1,2,3\nMean\nMarked by JT\n2 absent\n");
    CHECK(problems(csv).empty());
    CHECK(csv.candidates == std::vector<std::string>{"K07"});
    CHECK(csv.reading.rows_left_out == std::vector<std::string>{"Marked by JT"}); // the others are doubted
    CHECK(csv.doubts.count(DoubtKind::no_candidate) == 2);
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\nK07,1,2,3\nZed Quill Marsh,1,2\n")),
               Matches("3:0 the row has 3 fields .*")); // marks, so somebody's
}

TEST_CASE("a second table below the first is a problem, the same header again is not") {
    const ClassFile csv = read("candidate,1,2a,7b\nK07,1,2,3\nCandidate,1,2a,7b\nK08,1,2,3\n");
    CHECK(problems(csv).empty());
    CHECK(csv.candidates == std::vector<std::string>{"K07", "K08"});
    for (const char* again : {"12B,,,\ncandidate,1,2a,7b", "candidate,1,7b,2a", "student,1,2a,7b"})
        CHECK_THAT(
            problems(read("candidate,1,2a,7b\nK07,1,2,3\n" + std::string(again) + "\nK08,1,2,3\n")).back(),
            Matches("[34]:0 a second table starts here: .*"));
}

TEST_CASE("a ragged row of a wide file is a problem and the rows after it are read") {
    CHECK(problems(read("candidate,1,2a,7b\nK07,1,2\nK08,1,2,3,4\nK09,1,2,9\n")).size() == 3);
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\nK07,1,2\n")),
               Matches("2:0 the row has 3 fields and the header has 4: .*"));
}

TEST_CASE("a wide file of a header alone is a problem") {
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\n")), Matches("1:0 no candidates below the header: .*"));
    CHECK_THAT(only_problem(read("candidate,1,2a,7b\nmax,5,4,6\n")), Matches("1:0 no candidates .*"));
}

TEST_CASE("rows of empty cells are passed over in a wide file") {
    const ClassFile csv = read("candidate,1,2a,7b\n,,,\nK07,1,2,3\n,,,\n");
    CHECK(problems(csv).empty());
    CHECK(csv.rows == 1);
}

TEST_CASE("a paper made by a wide file has at most 500 parts") {
    const auto file = [](int parts) {
        std::string header = "candidate", maxima = "max", marks = "K07";
        for (int part = 1; part <= parts; ++part) {
            header += ',' + std::to_string(part);
            maxima += ",1";
            marks += ",1";
        }
        return header + '\n' + maxima + '\n' + marks + '\n';
    };
    CHECK(problems(read_new(file(500))).empty());
    CHECK_THAT(only_problem(read_new(file(501))), Matches("2:0 .* 1 to 500 parts, not 501"));
}

TEST_CASE("a cell, a column or an option says what was not set") {
    const ClassFile csv = read("candidate,only,1,2a,7b,total\nK01,,3,not-set,2,5\nK02,\"1,7\",4,,1,5\n"
                               "K03,1-2,1,2,not-set,\nK04,,1,2,3,6\n");
    REQUIRE(problems(csv).empty());
    CHECK(marks_of(csv.sittings.at(0)) == "3 not-set 2");
    CHECK(marks_of(csv.sittings.at(1)) == "4 not-set 1");
    CHECK(marks_of(csv.sittings.at(2)) == "1 2 not-set");
    CHECK(marks_of(csv.sittings.at(3)) == "1 2 3");

    ClassFileOptions options = no_options();
    options.paper = "pure-1";
    options.date = monday;
    options.only = "1-2";
    const ClassFile some = read_class("candidate,1,2a\nK01,3,4\nK02,-,0\n", options);
    REQUIRE(problems(some).empty());
    CHECK(marks_of(some.sittings.at(1)) == "- 0 not-set");
}

TEST_CASE("what can't have been set so is a problem in its place") {
    CHECK(problems(read("candidate,only,1,2a,7b\nK01,9,3,1,2\nK02,1,4,2,\nK03,,not-set,not-set,not-set\n"
                        "K04,,,1,2\n")) ==
          std::vector<std::string>{
              "2:5 paper pure-1 has no question or part 9",
              "3:9 part 2a was not set in this row: leave the cell empty, or say that it was",
              "4:0 paper pure-1: a sitting needs at least one part that was set",
              "5:6 no mark for 1: write - if it was not attempted, not-set if it was not set"});
}
