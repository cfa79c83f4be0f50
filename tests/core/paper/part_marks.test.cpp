#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/marks_difference.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "papers.hpp"

#include <climits>
#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

} // namespace

TEST_CASE("a count of marks is never below 0, a difference may be") {
    CHECK_THROWS_AS(Marks(-1), Error);
    CHECK_THROWS_AS(Marks(3) - Marks(4), Error);
    CHECK(Marks(4) - Marks(4) == Marks(0));
    CHECK(MarksDifference(Marks(3), Marks(4)).count() == -1);
    CHECK(MarksDifference(Marks(3), Marks(4)) < MarksDifference());
}

TEST_CASE("marks above the maximum can't be made") {
    CHECK(PartMarks({Marks(2), Marks(1), Marks(1)}, Marks(4)).unaided() == Marks(3));
    CHECK_THROWS_WITH(PartMarks({Marks(9)}, Marks(4)), Contains("add up to 9, above the maximum of 4"));
    CHECK_THROWS_AS(PartMarks({Marks(2), Marks(1), Marks(2)}, Marks(4)), Error);
    CHECK_THROWS_AS(PartMarks({Marks(INT_MAX), Marks(INT_MAX), Marks(2)}, Marks(4)), Error);
}

TEST_CASE("a reason is stated only where marks went") {
    CHECK_THROWS_AS(PartMarks({Marks(4)}, Marks(4), Reason::slip), Error);
    PartMarks full = full_marks(Marks(4));
    CHECK_THROWS_AS(full.state_reason(Reason::slip, Marks(4)), Error);
    CHECK_FALSE(full.reason());
    PartMarks late({Marks(3), Marks(1)}, Marks(4), Reason::slip);
    CHECK(late.reason() == Reason::slip);
    late.drop_reason();
    CHECK_FALSE(late.reason());
    PartMarks not_attempted;
    not_attempted.state_reason(Reason::unfinished, Marks(4));
    CHECK(not_attempted.reason() == Reason::unfinished);
    CHECK_FALSE(not_attempted.attempted());
}

TEST_CASE("marks by code are as many as those earned unaided, within the part") {
    PartMarks marks({Marks(1), Marks(1), Marks(1)}, Marks(4));
    marks.state_by_code(0b1001U, Marks(4));
    CHECK(marks.by_code() == 0b1001U);
    CHECK_THROWS_AS(marks.state_by_code(0b0111U, Marks(4)), Error);
    CHECK_THROWS_AS(marks.state_by_code(0b10001U, Marks(4)), Error);
    CHECK(marks.by_code() == 0b1001U);
    CHECK_THROWS_AS(marks.state_by_code(0b11U, Marks(33)), Error);
    PartMarks not_attempted;
    CHECK_THROWS_AS(not_attempted.state_by_code(0, Marks(4)), Error);
    marks.drop_by_code();
    CHECK_FALSE(marks.by_code());
    CHECK(marks == PartMarks({Marks(1), Marks(1), Marks(1)}, Marks(4)));
}

TEST_CASE("marks made for one part fit another only where its maximum and codes allow") {
    const Part coded{"1", Marks(4), "", "M1 A1 B2"};
    const Part plain{"2", Marks(4), "", ""};
    const Part small{"3", Marks(2), "", "M1 A1"};
    PartMarks marks({Marks(2)}, Marks(4), Reason::slip);
    CHECK_NOTHROW(check_fits(marks, plain));
    CHECK_THROWS_WITH(check_fits(marks, small), Contains("part 3, marks '2:slip': every mark was earned"));
    marks.drop_reason();
    CHECK_NOTHROW(check_fits(marks, small));
    marks.state_by_code(0b1001U, Marks(4));
    CHECK_NOTHROW(check_fits(marks, coded));
    CHECK_THROWS_AS(check_fits(marks, small), Error);
    CHECK_THROWS_WITH(check_fits(marks, plain), Contains("the part has no codes"));
}

TEST_CASE("a sitting fits a paper with marks for each part, on a day that is accepted") {
    const Paper paper = paper_of({3, 5});
    const Sitting whole{day(0), {}, parse_line(paper, "3 4:slip")};
    CHECK_NOTHROW(check_fits(paper, whole));
    Sitting half = whole;
    half.parts.pop_back();
    CHECK_THROWS_WITH(check_fits(paper, half), Contains("marks for 1 of 2 parts"));
    Sitting never = whole;
    never.day = latest_day + Days{1};
    CHECK_THROWS_AS(check_fits(paper, never), Error);
}

TEST_CASE("an error keeps its kind and what would help when words are put before it") {
    const Error error("no part 9", Error::Kind::not_found, Error::Remedy::show_paper, "pure-1");
    const Error within = error.within("line 3: ");
    CHECK(std::string(within.what()) == "line 3: no part 9");
    CHECK(within.kind() == Error::Kind::not_found);
    CHECK(within.remedy() == Error::Remedy::show_paper);
    CHECK(within.about() == "pure-1");
}
