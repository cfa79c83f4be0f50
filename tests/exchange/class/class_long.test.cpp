#include "catch.hpp"
#include "exchange/class/class_text.hpp"

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Matches;

namespace {

const std::string header = "candidate,paper,date,part,in_time\n";
const std::string all_columns = "candidate,paper,date,part,in_time,overtime,corrected,reason,max\n";

ClassFile read(const std::string& text) {
    return read_class(text, no_options());
}

/// A whole sitting of K07, all but part 1, whose row ends as given.
std::string part_1(const std::string& rest) {
    return all_columns + "K07,pure-1,2026-11-24,1," + rest + "\nK07,pure-1,2026-11-24,2a,4,,,,\n" +
           "K07,pure-1,2026-11-24,7b,6,,,,\n";
}

} // namespace

TEST_CASE("a long file has a row for each part of a sitting") {
    const ClassFile csv = read(header + "K07,pure-1,2026-11-24,1,3\nK07,pure-1,2026-11-24,2a,-\n"
                                        "K07,pure-1,2026-11-24,7b,6\nK08,pure-1,2026-11-24,1,5\n"
                                        "K08,pure-1,2026-11-24,2a,0\nK08,pure-1,2026-11-24,7b,1\n");
    REQUIRE(problems(csv).empty());
    CHECK(csv.rows == 6);
    CHECK(csv.absent == 0);
    CHECK(csv.candidates == std::vector<std::string>{"K07", "K08"});
    REQUIRE(csv.papers.size() == 1);
    CHECK(csv.papers[0].on_file);
    REQUIRE(csv.sittings.size() == 2);
    CHECK(csv.sittings[0].candidate == 0);
    CHECK(csv.sittings[0].paper == 0);
    CHECK(csv.sittings[0].day == day(2026, 11, 24));
    CHECK(csv.sittings[0].line == 2);
    CHECK(marks_of(csv.sittings[0]) == "3 - 6");
    CHECK(csv.sittings[1].line == 5);
    CHECK(marks_of(csv.sittings[1]) == "5 0 1");
}

TEST_CASE("the rows of a sitting may lie anywhere in a long file") {
    const ClassFile csv = read(header + "K07,pure-1,2026-11-24,7b,6\nK08,pure-1,2026-11-24,1,5\n"
                                        "K07,pure-1,2026-11-23,2a,2\nK08,pure-1,2026-11-24,7b,1\n"
                                        "K07,pure-1,2026-11-24,1,3\nK07,pure-1,2026-11-23,1,0\n"
                                        "K08,pure-1,2026-11-24,Q2(a),0\nK07,pure-1,2026-11-24,2A,4\n"
                                        "K07,pure-1,2026-11-23,7b,-\n");
    REQUIRE(problems(csv).empty());
    REQUIRE(csv.sittings.size() == 3);
    CHECK(marks_of(csv.sittings[0]) == "3 4 6");
    CHECK(marks_of(csv.sittings[1]) == "5 0 1");
    CHECK(marks_of(csv.sittings[2]) == "0 2 -");
    CHECK(csv.sittings[2].day == day(2026, 11, 23));
}

TEST_CASE("a long file's columns may stand in any order and their names in any case") {
    const ClassFile csv = read("In_Time ;PART;Date;corrected;reason;overtime;Paper;Candidate\n"
                               "3;1;2026-11-24;;slip;1;pure-1;K07\n0;2a;2026-11-24;4;method;;pure-1;K07\n"
                               "1;7b;2026-11-24;3;;2;pure-1;K07\n");
    REQUIRE(problems(csv).empty());
    CHECK(marks_of(csv.sittings.at(0)) == "3+1:slip 0+0+4:method 1+2+3");
}

TEST_CASE("a part not attempted may state empty or no marks, and a reason") {
    const ClassFile csv = read(part_1("-,0,0,unfinished,"));
    REQUIRE(problems(csv).empty());
    const PartMarks& marks = csv.sittings.at(0).parts.at(0);
    CHECK_FALSE(marks.attempted());
    CHECK(marks.unaided() == Marks(0));
    CHECK(marks.reason() == Reason::unfinished);
    CHECK(problems(read(part_1("-,,,,"))).empty());
}

TEST_CASE("papers made from maxima have the subject that was given") {
    ClassFileOptions options = no_options();
    options.subject = "pure";
    const ClassFile csv =
        read_class("candidate,paper,date,part,in_time,max\nK07,new-2,2026-11-24,3,3,4\n", options);
    REQUIRE(problems(csv).empty());
    CHECK(csv.papers.at(0).paper->subject() == "pure");
}

TEST_CASE("maxima make the papers of a long file that are not on file") {
    const ClassFile csv = read("candidate,paper,date,part,in_time,max\n"
                               "K07,new-2,2026-11-24,3,3,4\nK07,new-2,2026-11-24,Q1 (a),2,2\n"
                               "K08,new-2,2026-11-24,1a,0,2\nK07,pure-1,2026-11-24,1,5,\n"
                               "K07,pure-1,2026-11-24,2a,4,4\nK07,pure-1,2026-11-24,7b,6,06\n"
                               "K08,new-2,2026-11-24,3,4,4\n");
    REQUIRE(problems(csv).empty());
    REQUIRE(csv.papers.size() == 2);
    CHECK_FALSE(csv.papers[0].on_file);
    CHECK(csv.papers[1].on_file);
    const Paper& made = *csv.papers[0].paper;
    CHECK(made.id() == "new-2");
    CHECK(made.title().empty());
    REQUIRE(made.parts().size() == 2);
    CHECK(made.parts()[0].label == "3");
    CHECK(made.parts()[0].max == Marks(4));
    CHECK(made.parts()[1].label == "1a");
    CHECK(marks_of(csv.sittings.at(0)) == "3 2");
    CHECK(marks_of(csv.sittings.at(1)) == "4 0");
}

TEST_CASE("a long file's maxima must agree with the paper and with each other") {
    CHECK_THAT(only_problem(read(part_1("3,,,,4"))),
               Matches("2:30 part 1 has the maximum 4 here and 5 on file: they must agree"));
    const std::string columns = "candidate,paper,date,part,in_time,max\n";
    CHECK_THAT(only_problem(read(columns + "K07,new-2,2026-11-24,1,3,4\nK08,new-2,2026-11-24,1,3,5\n"
                                           "K09,new-2,2026-11-24,1,3,6\n")),
               Matches("3:26 part 1 has the maximum 5 here and 4 in line 2: they must agree"));
    for (const std::string max : {"0", "501", "-1", "x", "4.5", "123456789012345678901234567890"})
        CHECK_THAT(only_problem(read(columns + "K07,new-2,2026-11-24,1,3," + max + "\n")),
                   Matches("2:26 part 1, maximum '.*': give a whole number from 1 to 500"));
}

TEST_CASE("a paper that is not on file and has no maxima is one problem") {
    CHECK_THAT(only_problem(read(header + "K07,new-2,2026-11-24,1,3\nK07,new-2,2026-11-24,2,3\n"
                                          "K08,new-2,2026-11-24,1,3\n")),
               Matches("2:5 paper new-2 is not on file: add it with paper add, or .* a column max"));
    CHECK_THAT(only_problem(read("candidate,paper,date,part,in_time,max\nK07,new-2,2026-11-24,1,3,4\n"
                                 "K08,new-2,2026-11-24,1,3,\nK09,new-2,2026-11-24,1,3,\n")),
               Matches("3:5 paper new-2 is not on file: .*"));
}

TEST_CASE("a long file must name papers by an id") {
    CHECK_THAT(only_problem(read(header + "K07,Pure 1,2026-11-24,1,3\nK07,Pure 1,2026-11-24,2,3\n")),
               Matches("2:5 paper id 'pure 1': .*"));
}

TEST_CASE("a paper of a long file has at most 500 parts") {
    std::string text = "candidate,paper,date,part,in_time,max\n";
    for (int part = 1; part <= 500; ++part)
        text += "K07,new-2,2026-11-24," + std::to_string(part) + ",1,1\n";
    CHECK(problems(read(text)).empty());
    text += "K07,new-2,2026-11-24,501,1,1\nK07,new-2,2026-11-24,502,1,1\n";
    CHECK_THAT(only_problem(read(text)), Matches("502:22 paper new-2 has more than 500 parts.*"));
}

TEST_CASE("a part that the paper lacks is a problem with its label") {
    CHECK_THAT(only_problem(read(header + "K07,pure-1,2026-11-24,9z,3\nK07,pure-1,2026-11-24,1,3\n")),
               Matches("2:23 paper pure-1 has no part 9z: .*"));
    CHECK_THAT(only_problem(read(header + "K07,pure-1,2026-11-24,x,3\n")),
               Matches("2:23 'x' is not a part label: .*"));
}

TEST_CASE("a part that appears twice is a problem that names both lines") {
    const std::string whole = header + "K07,pure-1,2026-11-24,1,3\nK07,pure-1,2026-11-24,2a,3\n"
                                       "K07,pure-1,2026-11-24,7b,3\n";
    CHECK_THAT(only_problem(read(whole + "K07,pure-1,2026-11-24,Q2a,3\n")),
               Matches("5:23 part 2a appears twice for K07 on 2026-11-24, first in line 3: .*"));
}

TEST_CASE("a part that appears twice far apart names the line where the sitting starts") {
    const ClassFile csv = read(header + "K07,pure-1,2026-11-24,1,3\nK08,pure-1,2026-11-24,1,3\n"
                                        "K07,pure-1,2026-11-24,1,3\n");
    CHECK_THAT(problems(csv).at(0), Matches("4:23 part 1 appears twice .* starts in line 2: .*"));
}

TEST_CASE("the parts that a sitting lacks are listed") {
    CHECK_THAT(only_problem(read(header + "K07,pure-1,2026-11-24,2a,3\n")),
               Matches("2:0 the sitting of K07 on 2026-11-24 has no row for 1, 7b: .*"));
    std::string text = "candidate,paper,date,part,in_time,max\n";
    for (int part = 1; part <= 30; ++part)
        text += "K07,new-2,2026-11-24," + std::to_string(part) + ",1,1\n";
    CHECK_THAT(
        only_problem(read(text + "K08,new-2,2026-11-24,1,1,1\n")),
        Matches("32:0 the sitting of K08 .* no row for 2, 3, 4, 5, 6, 7, 8, 9, 10, 11 and 19 more: .*"));
}

TEST_CASE("a bad row is not a missing one as well") {
    CHECK_THAT(only_problem(read(part_1("9,,,,"))), Matches("2:25 .*"));
    CHECK_THAT(only_problem(read(part_1("9,,,"))),
               Matches("2:0 the row has 8 fields and the header has 9.*"));
}

TEST_CASE("bad marks are reported with their cell") {
    for (const std::string marks :
         {"6", "-1", "+1", "NaN", "1e0", "1+1", "1:slip", "123456789012345678901234567890"}) {
        CHECK_THAT(only_problem(read(part_1(marks + ",,,,"))),
                   Matches("2:25 part 1, in_time '.*': .* 0 to 5"));
        CHECK_THAT(only_problem(read(part_1("0," + marks + ",,,"))),
                   Matches("2:27 part 1, overtime '.*': .*"));
        CHECK_THAT(only_problem(read(part_1("0,0," + marks + ",,"))),
                   Matches("2:29 part 1, corrected '.*': .*"));
    }
    CHECK_THAT(only_problem(read(part_1(",,,,"))), Matches("2:25 no mark for 1: write - if it .*"));
    CHECK_THAT(only_problem(read(part_1("2.5,,,,"))),
               Matches("2:25 marks '2.5': marks are whole numbers, .*"));
    CHECK(problems(read(part_1("x,y,z,,"))).size() == 3);
}

TEST_CASE("inks that add up to more than the maximum are a problem") {
    CHECK_THAT(only_problem(read(part_1("3,2,1,,"))), Matches("2:25 .* add up to 6, above the maximum of 5"));
    CHECK(problems(read(part_1("3,1,1,,"))).empty());
}

TEST_CASE("a part not attempted has no marks") {
    CHECK_THAT(only_problem(read(part_1("-,2,,,"))), Matches("2:27 part 1 has marks but .*"));
    CHECK_THAT(only_problem(read(part_1("-,0,2,,"))), Matches("2:29 part 1 has marks but .*"));
}

TEST_CASE("a reason must be one and have something to explain") {
    CHECK_THAT(only_problem(read(part_1("3,,,tired,"))), Matches("2:29 .*'tired' is not a reason.*"));
    CHECK_THAT(only_problem(read(part_1("5,,,slip,"))), Matches("2:29 .* leave the reason out"));
}

TEST_CASE("a long file doesn't say which marks were earned") {
    for (const std::string reason : {"10101", "slip:10101"})
        CHECK_THAT(only_problem(read(part_1("3,,," + reason + ","))),
                   Matches("2:29 marks '3\\+0\\+0:" + reason + "': only a reason may follow them"));
}

TEST_CASE("`010` is ten in a long file") {
    const std::string columns = "candidate,paper,date,part,in_time,overtime,max\n";
    const ClassFile csv = read(columns + "K07,new-2,2026-11-24,1,010,000000000001,012\n");
    REQUIRE(problems(csv).empty());
    CHECK(marks_of(csv.sittings.at(0)) == "10+1");
}

TEST_CASE("dates must be ISO, in the calendar and not after today") {
    const auto dated = [](const std::string& date) {
        return only_problem(read(header + "K07,pure-1," + date + ",1,3\nK07,pure-1," + date + ",2a,3\n"));
    };
    CHECK_THAT(dated("10/11/2026"),
               Matches("2:12 '10/11/2026': say which of the numbers is the day: use --date-order .*"));
    CHECK_THAT(dated("2026-02-30"), Matches("2:12 .*calendar"));
    CHECK_THAT(dated("1899-12-31"), Matches("2:12 .* outside 1900-01-01 to 2200-12-31"));
    CHECK_THAT(dated("2201-01-01"), Matches("2:12 .* outside .*"));
    CHECK_THAT(dated("2026-11-26"), Matches("2:12 .*2026-11-26 is after today, 2026-11-25: .*"));
    CHECK_THAT(dated(""), Matches("2:12 .*"));
    CHECK_THAT(dated("today"), Matches("2:12 .*"));
}

TEST_CASE("a candidate's bad code is a problem once") {
    const std::string rest = ",pure-1,2026-11-24,";
    for (const std::string code : {"K\x07", "K\xC2\x85"}) {
        const ClassFile csv =
            read(header + code + rest + "1,3\n" + code + rest + "2a,3\n" + code + rest + "7b,3\n");
        CHECK_THAT(only_problem(csv), Matches("2:1 candidate .*"));
    }
    CHECK_THAT(only_problem(read(part_1("3,,,,") + ",pure-1,2026-11-24,1,3,,,,\n")),
               Matches("5:1 candidate '': .*|.*"));
}

TEST_CASE("a long file's header must have its columns once and nothing unknown") {
    const ClassFile csv = read("candidate,part,in_time\nK07,1,3\n");
    CHECK(problems(csv) == std::vector<std::string>{"1:0 the header has no column paper: add it",
                                                    "1:0 the header has no column date: add it"});
    CHECK_THAT(only_problem(read("candidate,paper,date,part,mark\nK07,pure-1,2026-11-24,1,3\n")),
               Matches(".*"));
    const std::string row = "K07,pure-1,2026-11-24,1,3,x\n";
    CHECK(read("candidate,paper,date,part,in_time,note\n" + row).doubts.empty());
    const auto doubts = read("candidate,paper,date,part,in_time,locker\n" + row).doubts.open();
    REQUIRE(doubts.size() == 1);
    CHECK(doubts[0].kind == DoubtKind::column);
    CHECK(doubts[0].at.column == 35);
    CHECK_THAT(problems(read("candidate,paper,date,part,in_time,DATE\nK07,pure-1,2026-11-24,1,3,\n")).at(0),
               Matches("1:35 the column date appears twice.*"));
}

TEST_CASE("a long file of a header alone is a problem") {
    CHECK_THAT(only_problem(read(header)), Matches("1:0 no rows below the header: .*"));
}

TEST_CASE("rows of empty cells are passed over in a long file") {
    CHECK(problems(read(part_1("3,,,,") + ",,,,,,,,\n")).empty());
}

TEST_CASE("a row's word or an option says what was not set") {
    const ClassFile csv = read(header + "K07,pure-1,2026-11-24,1,3\nK07,pure-1,2026-11-24,2a,not-set\n"
                                        "K07,pure-1,2026-11-24,7b,6\n");
    REQUIRE(problems(csv).empty());
    CHECK(marks_of(csv.sittings.at(0)) == "3 not-set 6");

    ClassFileOptions options = no_options();
    options.only = "1,7";
    const ClassFile some =
        read_class(header + "K07,pure-1,2026-11-24,1,3\nK07,pure-1,2026-11-24,7b,6\n", options);
    REQUIRE(problems(some).empty());
    CHECK(marks_of(some.sittings.at(0)) == "3 not-set 6");
    options.only = "1-2";
    CHECK(problems(read_class(header + "K07,pure-1,2026-11-24,1,3\nK07,pure-1,2026-11-24,7b,6\n", options))
              .size() == 1);
}

TEST_CASE("a part that was not set has no marks in any column") {
    CHECK(only_problem(read(part_1("not-set,1,,,"))) ==
          "2:33 part 1 has marks but was not set: leave one or the other out");
    CHECK(only_problem(read(part_1("not-set,,,slip,"))) ==
          "2:35 marks 'not-set:slip': a part that was not set loses no marks: leave the reason out");
}
