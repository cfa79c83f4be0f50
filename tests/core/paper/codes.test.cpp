#include "inkturn/paper/codes.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Strings = std::vector<std::string>;

Part part(const std::string& codes) {
    return {"2a", marks_of_codes(codes), "", codes};
}

std::string read(const std::string& codes, const std::string& typed, Phase first = Phase::in_time) {
    return to_text(marks_from_codes(typed, part(codes), first));
}

std::string refusal(const std::string& codes, const std::string& typed, Phase first = Phase::in_time) {
    try {
        return "read as " + read(codes, typed, first);
    } catch (const Error& error) {
        return error.what();
    }
}

CodeKind kind(const std::string& code) {
    return parse_codes(code).at(0).kind;
}

/// `2/1/0/0/1`: method, accuracy, independent, other, accuracy after method.
std::string lost(const std::string& codes, const std::string& marks) {
    const auto lost = lost_by_code(part(codes), parse_part_marks(marks, marks_of_codes(codes)));
    if (!lost)
        return "unknown";
    std::string text;
    for (const Marks sum :
         {lost->method, lost->accuracy, lost->independent, lost->other, lost->accuracy_after_method})
        text += (text.empty() ? "" : "/") + std::to_string(sum.count());
    return text;
}

} // namespace

TEST_CASE("mark codes add up to the part's marks") {
    CHECK(marks_of_codes("M1 A1 B2") == Marks(4));
    CHECK(marks_of_codes("  dM1   A1ft ") == Marks(2));
    CHECK(marks_of_codes("M0 A0") == Marks(0));
    CHECK(marks_of_codes("") == Marks(0));
    for (const char* const codes : {"M", "1", "M1A1", "M1,A1", "M-1", "M1.5", "M501", "M1 x"}) {
        CAPTURE(codes);
        CHECK_THROWS_AS(marks_of_codes(codes), Error);
    }
}

TEST_CASE("a code is letters, marks, letters") {
    const std::vector<MarkCode> codes = parse_codes(" dM1  A12ft B3");
    REQUIRE(codes.size() == 3);
    CHECK(codes[0].before == "dM");
    CHECK(codes[0].after.empty());
    CHECK(codes[1].marks == Marks(12));
    CHECK(codes[1].after == "ft");
    CHECK_THROWS_WITH(parse_codes("M1 A"), "'A' is no mark code: write letters and marks, such as M1 A1 B2");
}

TEST_CASE("the last letter before the marks says what a code is for") {
    for (const char* const method : {"M1", "dM1", "DM1", "ddM2", "m1"})
        CHECK(kind(method) == CodeKind::method);
    for (const char* const accuracy : {"A1", "A1ft", "dA1", "a1"})
        CHECK(kind(accuracy) == CodeKind::accuracy);
    CHECK(kind("B1") == CodeKind::independent);
    CHECK(kind("B2ft") == CodeKind::independent);
    for (const char* const other : {"E1", "G1", "R1", "C1", "AO1", "P3ma"})
        CHECK(kind(other) == CodeKind::other);
}

TEST_CASE("marks are typed as codes in the mark scheme's order") {
    CHECK(read("M1 A1 B1", "M1 A0 B1") == "2:101");
    CHECK(read("M1 A1 B1", "M1A0B1") == "2:101");
    CHECK(read("M1 A1 B1", "  m1 a1  B0 ") == "2:11");
    CHECK(read("M1 A1 B1", "m0a0b0") == "0:0");
    CHECK(read("dM1 A1 ddM1", "dM1A0ddm1") == "2:101");
    CHECK(read("M1 A1 M1 A1", "M1 A0 M1 A0") == "2:101");
    CHECK(read("M01 A1", "M1 A001") == "2:11");
}

TEST_CASE("of a code worth several marks the first count as earned") {
    CHECK(read("M1 B3 A1", "M0 B2 A1") == "3:01101");
    CHECK(read("M2 B2", "M1 B0 + B1 + M1 B1") == "1+1+2:101");
}

TEST_CASE("letters after a code's marks may be left out") {
    for (const char* const typed : {"M1 A1ft B1", "M1 A1 B1", "M1A1ftB1", "M1A1B1", "m1a1ftb1"})
        CHECK(read("M1 A1ft B1", typed) == "3:111");
    CHECK(read("M1 A1FT A1", "M1A1ftA0") == "2:11");
    CHECK(read("A1 A1ft M1", "A0 A0 M1 + A1ft") == "1+1:011");
    CHECK(read("A1ft A1 B1", "A0A0B0+A1ftB1") == "0+2:101");
}

TEST_CASE("what was gained in a later ink comes after a plus") {
    CHECK(read("M1 A1 B1", "M1 A0 B0 + B1") == "1+1:101");
    CHECK(read("M1 A1 B1", "M1A0B0+B1") == "1+1:101");
    CHECK(read("M1 A1 B1", "M0A0B1 + M1 + A1") == "1+1+1:101");
    CHECK(read("M1 A1 B1", "M0A0B0+M1A1") == "0+2:11");
    CHECK(read("M1 A1 B1", "M1 A0 B0 + B1:slip") == "1+1:slip:101");
}

TEST_CASE("marking that begins in overtime has no marks in time") {
    CHECK(read("M1 A1 B1", "M1 A0 B1", Phase::overtime) == "0+2:101");
    CHECK(read("M1 A1 B1", "M1 A0 B1 + A1:method", Phase::overtime) == "0+2+1:method:101");
    CHECK(refusal("M1 A1 B1", "M0 A0 B1 + M1 + A1", Phase::overtime) ==
          "part 2a, no ink comes after the corrected one: there is a + too many");
}

TEST_CASE("a code after a plus is the next of its letters that has marks to gain") {
    CHECK(read("M1 A1 A1 A1", "M1 A1 A0 A0 + A1") == "2+1:111");
    CHECK(read("M1 A1 A1 A1", "M1 A1 A0 A0 + A0 A1") == "2+1:1101");
    CHECK(read("A1 A2", "A0 A0 + A2") == "0+2:011");
    CHECK(read("M1 A1 A1", "M1 A0 A0 + A1 + A1") == "1+1+1:11");
}

TEST_CASE("corrected marks are not among those earned") {
    const PartMarks marks =
        marks_from_codes("M0 A0 B0 + B1 + M1 A1:recall", part("M1 A1 B1"), Phase::in_time);
    CHECK(marks.attempted());
    CHECK(marks.corrected() == Marks(2));
    CHECK(marks.overtime() == Marks(1));
    CHECK(marks.by_code() == 0b100U);
    CHECK(marks.reason() == Reason::recall);
}

TEST_CASE("a mistake in codes is refused with the code's name") {
    CHECK(refusal("M1 A1 B1", "M1 B1") == "part 2a, A1 is not named: write A0 or A1");
    CHECK(refusal("M1 A1 B2", "M1 A1") == "part 2a, B2 is not named: write B0 to B2");
    CHECK(refusal("M1 A1 M1 A1", "M1 M1 A1") == "part 2a, A1 is not named: write A0 or A1");
    CHECK(refusal("M1 A1 B1", "M1 E1 B1") == "part 2a, E1 is not in the mark scheme: its codes are M1 A1 B1");
    CHECK(refusal("M1 A1 B1", "M1 A1 B1 E1") ==
          "part 2a, E1 is not in the mark scheme: its codes are M1 A1 B1");
    CHECK(refusal("M1 A1 B1", "M1 A1ft B1") ==
          "part 2a, A1ft is not in the mark scheme: its codes are M1 A1 B1");
    CHECK(refusal("M1 A1ft B1", "M1ftA1B1") ==
          "part 2a, ftA1 is not in the mark scheme: its codes are M1 A1ft B1");
    CHECK(refusal("m1 a1", "M1 a1") == "part 2a, M1 is not in the mark scheme: its codes are m1 a1");
    CHECK(refusal("M1 A1 B1", "M1 B1 A1") ==
          "part 2a, B1 is out of order, or there too often: the mark scheme has M1 A1 B1");
    CHECK(refusal("M1 A1 B1", "M1 A1 B1 B1") ==
          "part 2a, B1 is out of order, or there too often: the mark scheme has M1 A1 B1");
    CHECK(refusal("M1 A1 B1", "M0 A0 B0 + B1 A1") ==
          "part 2a, A1 is out of order, or there too often: the mark scheme has M1 A1 B1");
    CHECK(refusal("M1 A1 B2", "M1 A1 B3") == "part 2a, B3 is above the marks of B2");
    CHECK(refusal("M1 A1 B2", "M1 A99999999999 B2") == "part 2a, A99999999999 is above the marks of A1");
    CHECK(refusal("M1 A1 B2", "M1 A1 B1 + B2") == "part 2a, B2 after a + is above what B2 had lost: 1");
    CHECK(refusal("M1 A1 B2", "M1 A1 B1 + A1") == "part 2a, A1 after a + is above what A1 had lost: 0");
    CHECK(refusal("M1 A1 B2", "M1 A0 B1 + A1 + A1") == "part 2a, A1 after a + is above what A1 had lost: 0");
    CHECK(refusal("M1 A1 B1", "M1 A1 B0 + E1") ==
          "part 2a, E1 is not in the mark scheme: its codes are M1 A1 B1");
    CHECK(refusal("M1 A1 B1", "M1 A1 B0 + ") ==
          "part 2a, after a + name the codes that gained marks, such as M1");
    CHECK(refusal("M1 A1 B1", "M1 A B1") ==
          "part 2a, 'A' is no mark code: write letters and marks, such as M1 A0 B1");
    for (const char* const typed :
         {"M1 1 B1", "M1,A1,B1", "M1A1B1-", "M1A1B", "M1 A1 B0 B", "M1A1B0+1", "M1A0.5B1"}) {
        CAPTURE(typed);
        CHECK_THROWS_AS(read("M1 A1 B1", typed), Error);
    }
    CHECK(refusal("M1 A1", "M1 A1:slip") == "part 2a, every mark was earned in time: leave the reason out");
    CHECK(refusal("M1 A1", "M1 A0:hurry").find("part 2a, 'hurry' is no reason") == 0);
}

TEST_CASE("a part without codes, or with more than 32 marks, takes numbers alone") {
    CHECK(refusal("", "M1") == "part 2a has no codes on file: type its marks as numbers");
    CHECK(read("B32", "B32") == "32:" + std::string(32, '1'));
    CHECK(refusal("B33", "B33") == "part 2a has more than 32 marks: type them as numbers");
}

TEST_CASE("codes are told from numbers by their first character") {
    for (const char* const typed : {"M1", "  m1 a0", "M1A0:slip", "x", "slip1"})
        CHECK(is_coded(typed));
    for (const char* const typed :
         {"", "  ", "2+1", "-", "0:M1", ":slip", "slip", "unfinished", " method", "+M1"})
        CHECK_FALSE(is_coded(typed));
}

TEST_CASE("marks by code belong to a part with codes") {
    CHECK_NOTHROW(check_by_code(parse_part_marks("1:01", Marks(2)), part("M1 A1")));
    CHECK_NOTHROW(check_by_code(parse_part_marks("1", Marks(2)), {"1", Marks(2), "", ""}));
    CHECK_THROWS_AS(check_by_code(parse_part_marks("1:01", Marks(2)), {"1", Marks(2), "", ""}), Error);
}

TEST_CASE("what was earned is written as codes") {
    CHECK(codes_text(part("M1 A1 B1"), 0b101) == "M1 A0 B1");
    CHECK(codes_text(part("dM1  A1ft B3"), 0b10110) == "dM0 A1ft B2");
    CHECK(codes_text(part("M0 B32"), 0xFFFFFFFFU) == "M0 B32");
}

TEST_CASE("any marks by code are read back as typed, with and without blanks, and add up") {
    std::mt19937 dice(11);
    const Strings scheme_codes{"M1", "dM1", "M2", "A1", "A1ft", "A2", "B1", "B3", "E1"};
    for (int round = 0; round < 3000; ++round) {
        std::string codes;
        for (unsigned count = 1 + dice() % 8; count > 0; --count)
            codes += scheme_codes[dice() % scheme_codes.size()] + ' ';
        const Part coded = part(codes);
        std::string typed;
        Marks sum;
        for (const MarkCode& code : parse_codes(codes)) {
            const int marks = static_cast<int>(dice() % static_cast<unsigned>(code.marks.count() + 1));
            sum += Marks(marks);
            typed += code.before + std::to_string(marks) + (dice() % 2 == 0 ? code.after : "") +
                     (dice() % 2 == 0 ? " " : "");
        }
        const PartMarks marks = marks_from_codes(typed, coded, Phase::in_time);
        const PartMarks again = marks_from_codes(codes_text(coded, *marks.by_code()), coded, Phase::in_time);
        if (marks.unaided() != sum || again != marks || parse_part_marks(to_text(marks), coded.max) != marks)
            FAIL(typed << " of " << codes);
        const auto lost = lost_by_code(coded, marks);
        if (!lost || lost->method + lost->accuracy + lost->independent + lost->other != coded.max - sum ||
            lost->accuracy_after_method > lost->accuracy)
            FAIL(typed << " of " << codes);
    }
    SUCCEED();
}

TEST_CASE("accuracy earned without the method before it is named, unless it follows through") {
    CHECK(accuracy_without_method(part("M1 A1 B1"), 0b110) == Strings{"A1"});
    CHECK(accuracy_without_method(part("M1 A1 B1"), 0b111).empty());
    CHECK(accuracy_without_method(part("M1 A1 B1"), 0b100).empty());
    CHECK(accuracy_without_method(part("M1 A1ft"), 0b10).empty());
    CHECK(accuracy_without_method(part("M1 ftA1"), 0b10).empty());
    CHECK(accuracy_without_method(part("A1 M1"), 0b01).empty());
    CHECK(accuracy_without_method(part("B1 A1"), 0b10).empty());
    CHECK(accuracy_without_method(part("M1 A1 dM1 A1 A2"), 0b111011) == Strings({"A1", "A2"}));
    CHECK(accuracy_without_method(part("M2 A1"), 0b101).empty());
}

TEST_CASE("marks lost are told by kind of code") {
    CHECK(lost("M1 A1 B1 E2", "2:10010") == "0/1/1/1/1");
    CHECK(lost("M1 A1 M1 A1", "1:1000") == "1/2/0/0/1");
    CHECK(lost("M2 A1", "1:1") == "1/1/0/0/0");
    CHECK(lost("A1 M1 A1", "1:01") == "0/2/0/0/1");
    CHECK(lost("M1 A1 B1", "1+0+2:100") == "0/1/1/0/1");
}

TEST_CASE(
    "kinds of marks lost are known without codes typed where all or none were lost, or there is one kind") {
    CHECK(lost("M1 A1 B1", "3") == "0/0/0/0/0");
    CHECK(lost("M1 A1 B1", "2+1") == "0/0/0/0/0");
    CHECK(lost("M1 A1 B1", "0") == "1/1/1/0/0");
    CHECK(lost("M1 A1 B1", "-") == "1/1/1/0/0");
    CHECK(lost("M1 A1 B1", "0+0+3") == "1/1/1/0/0");
    CHECK(lost("M1 A1 B1", "2") == "unknown");
    CHECK(lost("B1 B2", "1") == "0/0/2/0/0");
    CHECK(lost("M20 A20", "40") == "0/0/0/0/0");
    CHECK(lost("M20 A20", "0") == "20/20/0/0/0");
    CHECK_FALSE(lost_by_code({"1", Marks(3), "", ""}, parse_part_marks("3", Marks(3))).has_value());
}
