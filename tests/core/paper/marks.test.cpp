#include "inkturn/paper/marks.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <bitset>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;

PartMarks earned(int in_time, int overtime, int corrected, std::optional<Reason> reason = {}) {
    return PartMarks({Marks(in_time), Marks(overtime), Marks(corrected)}, Marks(500), reason);
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
    CHECK(parse_part_marks("-:unfinished", Marks(6)).reason() == Reason::unfinished);
    CHECK_THROWS_WITH(parse_part_marks("-+2", Marks(6)),
                      EndsWith("if it was corrected later, write it as 0+0+2"));
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
            for (int reason = -1; reason < (marks.in_time() == Marks(max) ? 0 : 5); ++reason) {
                if (reason >= 0)
                    marks.state_reason(static_cast<Reason>(reason), Marks(max));
                ++count;
                texts.insert(to_text(marks));
                if (parse_part_marks(to_text(marks), Marks(max)) != marks)
                    FAIL(to_text(marks) << " of " << max);
            }
        CHECK(texts.size() == count);
    }
}

TEST_CASE("which marks were earned is read in the mark scheme's order, and back") {
    const PartMarks marks = parse_part_marks("2+1:slip:1101", Marks(4));
    CHECK(marks.by_code() == 0b1011U);
    CHECK(marks.reason() == Reason::slip);
    CHECK(marks.unaided() == Marks(3));
    CHECK(to_text(marks) == "2+1:slip:1101");
    CHECK(parse_part_marks("1+0+3:010", Marks(4)).by_code() == 0b10U);
    CHECK(parse_part_marks("3:111", Marks(3)).by_code() == 0b111U);
    CHECK(parse_part_marks("0:000", Marks(3)).by_code() == 0U);
    CHECK_FALSE(parse_part_marks("0", Marks(3)).by_code().has_value());
    CHECK(marks != parse_part_marks("2+1:slip", Marks(4)));
    CHECK(marks != parse_part_marks("2+1:slip:1011", Marks(4)));
}

TEST_CASE("zeros at the end of which marks were earned may be left out, and are not written") {
    CHECK(to_text(parse_part_marks("1:0100", Marks(4))) == "1:01");
    CHECK(to_text(parse_part_marks("0:0000", Marks(4))) == "0:0");
    CHECK(parse_part_marks("1:01", Marks(4)) == parse_part_marks("1:0100", Marks(4)));
}

TEST_CASE("any marks earned are read back from their text, up to the last of 32") {
    for (int max = 1; max <= 8; ++max)
        for (std::uint32_t by_code = 0; by_code < (1U << static_cast<unsigned>(max)); ++by_code) {
            const int unaided = static_cast<int>(std::bitset<32>(by_code).count());
            PartMarks marks = earned(unaided / 2, unaided - unaided / 2, (max - unaided) / 2);
            marks.state_by_code(by_code, Marks(max));
            for (const std::optional<Reason> reason : {std::optional<Reason>(), {Reason::misread}}) {
                if (reason && marks.in_time() == Marks(max))
                    continue;
                if (reason)
                    marks.state_reason(*reason, Marks(max));
                if (parse_part_marks(to_text(marks), Marks(max)) != marks)
                    FAIL(to_text(marks) << " of " << max);
            }
        }
    PartMarks all = full_marks(Marks(32));
    all.state_by_code(0xFFFFFFFFU, Marks(32));
    CHECK(to_text(all) == "32:" + std::string(32, '1'));
    CHECK(parse_part_marks(to_text(all), Marks(32)) == all);
    CHECK(parse_part_marks("1:" + std::string(31, '0') + "1", Marks(32)).by_code() == 0x80000000U);
}

TEST_CASE("marks earned that don't fit the part or its unaided marks are refused") {
    CHECK_THROWS_WITH(
        parse_part_marks("2:01100", Marks(4)),
        "marks '2:01100': after the last colon give a reason, or 0 or 1 for each of the 4 marks in "
        "the mark scheme's order");
    CHECK_THROWS_WITH(parse_part_marks("2:1110", Marks(4)),
                      "marks '2:1110': 1110 earns 3, the inks before the corrections 2");
    CHECK_THROWS_WITH(parse_part_marks("1+0+2:1110", Marks(4)), EndsWith("1110 earns 3, the inks before the "
                                                                         "corrections 1"));
    CHECK_THROWS_WITH(parse_part_marks("-:0000", Marks(4)),
                      EndsWith("a part not attempted can't have earned marks"));
    CHECK_THROWS_WITH(parse_part_marks("1:1", Marks(33)),
                      EndsWith("which marks were earned can be said only of parts of at most 32 marks"));
    for (const char* const text : {"2:slip:", "2:1200", "2:110x", "2:1100:slip", "2:slip:1100:", "2::1100",
                                   "2:slip:slip", "2:1100:1100", "4:slip:1111", "2:1 1"}) {
        CAPTURE(text);
        CHECK_THROWS_AS(parse_part_marks(text, Marks(4)), Error);
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
    CHECK_THROWS_AS(parse_part_marks("5:Slib", Marks(6)), Error);
}

TEST_CASE("anything else is refused as marks") {
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
    CHECK(full_marks(Marks(4)).unaided() == Marks(4));
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
    const Entry earned = parse_entry("7b=2+1/4:slip:1101");
    CHECK(earned.marks == "2+1:slip:1101");
    CHECK(earned.max == Marks(4));
    CHECK(parse_entry("7b=M1 A0 + A1/2:slip").marks == "M1 A0 + A1:slip");
}

TEST_CASE("an entry that lacks a piece is refused") {
    for (const char* const text :
         {"", "7b", "=3", "7b=3/", "7b=3/0", "7b=3/501", "7b=3/x", "7b=3/6/6", "x=3"}) {
        CAPTURE(text);
        CHECK_THROWS_AS(parse_entry(text), Error);
    }
}

TEST_CASE("a reason is named by any beginning that is no other's, in any case") {
    CHECK(parse_reason("slip") == Reason::slip);
    CHECK(parse_reason("s") == Reason::slip);
    CHECK(parse_reason("ME") == Reason::method);
    CHECK(parse_reason("mis") == Reason::misread);
    CHECK(parse_reason("R") == Reason::recall);
    CHECK(parse_reason("unfin") == Reason::unfinished);
    CHECK(to_text(parse_part_marks("2+1:S", Marks(5))) == "2+1:slip");
    CHECK_THROWS_WITH(parse_reason("m"), Contains("may be method or misread"));
    for (const char* text : {"", "x", "slips", "1"}) {
        INFO(text);
        CHECK_THROWS_WITH(parse_reason(text), Contains("is not a reason"));
    }
}
