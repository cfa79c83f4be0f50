#include "inkturn/marks.hpp"

#include "inkturn/error.hpp"

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
#endif

#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;

PartMarks earned(int in_time, int overtime, int corrected, std::optional<Reason> reason = {}) {
    return {true, Marks(in_time), Marks(overtime), Marks(corrected), reason};
}

} // namespace

TEST_CASE("marks are read in the order of the inks") {
    CHECK(parse_part_marks("3", Marks(6)) == earned(3, 0, 0));
    CHECK(parse_part_marks("2+1", Marks(6)) == earned(2, 1, 0));
    CHECK(parse_part_marks("2+1+3", Marks(6)) == earned(2, 1, 3));
    CHECK(parse_part_marks("0+0+2", Marks(6)) == earned(0, 0, 2));
    CHECK(parse_part_marks("2+1+3:method", Marks(6)) == earned(2, 1, 3, Reason::method));
    CHECK(parse_part_marks("0", Marks(6)) != parse_part_marks("-", Marks(6)));
}

TEST_CASE("a part not attempted has no marks, but may have a reason") {
    CHECK(parse_part_marks("-", Marks(6)) == PartMarks{});
    CHECK(parse_part_marks("-:unfinished", Marks(6)).reason == Reason::unfinished);
    CHECK_THROWS_WITH(parse_part_marks("-+2", Marks(6)),
                      EndsWith("if it was corrected later write it as 0+0+2"));
}

TEST_CASE("every combination of phases and reasons is read back from its text") {
    for (int max = 1; max <= 7; ++max) {
        std::set<std::string> texts;
        std::vector<PartMarks> all{PartMarks{}};
        for (int a = 0; a <= max; ++a)
            for (int b = 0; a + b <= max; ++b)
                for (int c = 0; a + b + c <= max; ++c)
                    all.push_back(earned(a, b, c));
        std::size_t count = 0;
        for (PartMarks marks : all)
            for (int reason = -1; reason < 5; ++reason) {
                if (reason >= 0)
                    marks.reason = static_cast<Reason>(reason);
                if (marks.reason && marks.in_time == Marks(max))
                    continue;
                ++count;
                texts.insert(to_text(marks));
                if (parse_part_marks(to_text(marks), Marks(max)) != marks)
                    FAIL(to_text(marks) << " of " << max);
            }
        CHECK(texts.size() == count);
    }
}

TEST_CASE("the text of marks is the shortest that says them") {
    CHECK(to_text(earned(3, 0, 0)) == "3");
    CHECK(to_text(earned(3, 1, 0)) == "3+1");
    CHECK(to_text(earned(3, 0, 1)) == "3+0+1");
    CHECK(to_text(parse_part_marks("03+0+0", Marks(6))) == "3");
}

TEST_CASE("marks above the maximum are refused, alone or together") {
    CHECK_THROWS_WITH(parse_part_marks("7", Marks(6)), "marks '7': above the maximum of 6");
    CHECK_THROWS_WITH(parse_part_marks("99999999999999999999", Marks(6)), EndsWith("above the maximum of 6"));
    CHECK_THROWS_WITH(parse_part_marks("4+2+1", Marks(6)),
                      "marks '4+2+1': the inks add up to 7, above the maximum of 6");
}

TEST_CASE("a reason is refused where every mark was earned in time") {
    CHECK_THROWS_WITH(parse_part_marks("6:slip", Marks(6)),
                      StartsWith("marks '6:slip': every mark was earned in time"));
    CHECK_NOTHROW(parse_part_marks("5+1:slip", Marks(6)));
    CHECK_THROWS_AS(parse_part_marks("5:hurry", Marks(6)), Error);
    CHECK_THROWS_AS(parse_part_marks("5:", Marks(6)), Error);
    CHECK_THROWS_AS(parse_part_marks("5:Slip", Marks(6)), Error);
}

TEST_CASE("anything else is no marks") {
    for (const char* const text : {"", "+", "1+", "+1", "1++2", "1+1+1+1", "1.5", "-1", "1 + 1", " 1", "1/2",
                                   "x", "--", "- ", ":slip", "1+-"}) {
        CAPTURE(text);
        CHECK_THROWS_AS(parse_part_marks(text, Marks(6)), Error);
    }
}

TEST_CASE("a reason is named as it is read") {
    for (int i = 0; i < 5; ++i)
        CHECK(reason_named(name(static_cast<Reason>(i))) == static_cast<Reason>(i));
    CHECK_FALSE(reason_named("").has_value());
}

TEST_CASE("full marks are all earned in time") {
    CHECK(to_text(full_marks(Marks(4))) == "4");
    CHECK(full_marks(Marks(4)).own() == Marks(4));
}

TEST_CASE("an entry is split into part, marks, maximum and reason") {
    const Entry plain = parse_entry("Q7 (b)=2+1");
    CHECK(plain.part == "7b");
    CHECK(plain.marks == "2+1");
    CHECK_FALSE(plain.max.has_value());
    const Entry whole = parse_entry("7b=2+1+3/6:method");
    CHECK(whole.part == "7b");
    CHECK(whole.marks == "2+1+3:method");
    CHECK(whole.max == Marks(6));
    CHECK(parse_entry("1=-/500").max == Marks(500));
}

TEST_CASE("an entry that lacks a piece is refused") {
    for (const char* const text :
         {"", "7b", "=3", "7b=3/", "7b=3/0", "7b=3/501", "7b=3/x", "7b=3/6/6", "x=3"}) {
        CAPTURE(text);
        CHECK_THROWS_AS(parse_entry(text), Error);
    }
}
