#include "inkturn/sitting/sitting.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/base/error.hpp"

#include <optional>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::StartsWith;
using inkturn::test::pick;

constexpr Day today{date::year{2026} / date::November / 25};

/// 1 of 5 marks, 2a of 4 and 2b of 6.
Paper example() {
    return Paper({"made-up", "", "", {}, RetryBy::question},
                 {{"1", Marks(5), "", ""}, {"2a", Marks(4), "", ""}, {"2b", Marks(6), "", ""}});
}

std::vector<Entry> entries(const std::vector<std::string>& texts) {
    std::vector<Entry> all;
    for (const std::string& text : texts)
        all.push_back(parse_entry(text));
    return all;
}

std::string line_from(const std::vector<std::string>& texts, std::optional<Rest> rest) {
    return to_line(marks_from_entries(example(), entries(texts), rest));
}

PartMarks random_marks(std::mt19937& dice, Marks max) {
    PartMarks marks;
    if (pick(dice, 0, 4) > 0) {
        MarksByPhase earned;
        earned.in_time = Marks(pick(dice, 0, max.count()));
        earned.overtime = Marks(pick(dice, 0, (max - earned.in_time).count()));
        earned.corrected = Marks(pick(dice, 0, (max - earned.in_time - earned.overtime).count()));
        marks = PartMarks(earned, max);
    }
    if (marks.in_time() != max && pick(dice, 0, 1) == 1)
        marks.state_reason(static_cast<Reason>(pick(dice, 0, 4)), max);
    if (marks.attempted() && pick(dice, 0, 1) == 1)
        marks.state_by_code((1U << static_cast<unsigned>(marks.unaided().count())) - 1U, max);
    return marks;
}

} // namespace

TEST_CASE("the phases and what is unearned add up to the paper's marks, and lines are read back") {
    std::mt19937 dice(7);
    for (int round = 0; round < 2000; ++round) {
        std::vector<Part> parts;
        for (int number = 1; number <= pick(dice, 1, 12); ++number)
            parts.push_back({std::to_string(number) + (pick(dice, 0, 1) == 1 ? "a" : ""),
                             Marks(pick(dice, 1, 12)), "", ""});
        const Paper paper({"made-up", "", "", {}, RetryBy::question}, parts);
        std::vector<PartMarks> marks;
        for (const Part& part : paper.parts())
            marks.push_back(random_marks(dice, part.max));

        const Totals sum = totals(paper, marks);
        Marks missed_in_all;
        for (const Question& question : paper.questions())
            missed_in_all += missed_marks(paper, question, marks);
        if (sum.max != paper.marks() ||
            sum.in_time + sum.overtime + sum.corrected + sum.unearned() != sum.max ||
            sum.unearned() < Marks(0) || sum.unaided() + missed_in_all != sum.max ||
            reach_of(paper, marks) > paper.marks() || parse_line(paper, to_line(marks)) != marks)
            FAIL(to_line(marks));
    }
    SUCCEED();
}

TEST_CASE("the reach counts parts tried before the ink changed") {
    const Paper paper = example();
    CHECK(reach_of(paper, parse_line(paper, "5 2 0")) == Marks(15));
    CHECK(reach_of(paper, parse_line(paper, "0 - -")) == Marks(5));
    CHECK(reach_of(paper, parse_line(paper, "3+2 0+4 0+0+6")) == Marks(11));
    CHECK(reach_of(paper, parse_line(paper, "- - -")) == Marks(0));
}

TEST_CASE("missed marks are those short of the maximum in both unaided inks") {
    const Paper paper = example();
    const auto marks = parse_line(paper, "4+1 1+1+2 -");
    CHECK(missed_marks(paper, paper.questions()[0], marks) == Marks(0));
    CHECK(missed_marks(paper, paper.questions()[1], marks) == Marks(8));
}

TEST_CASE("entries are put in the paper's order, and the rest is full or not attempted as said") {
    CHECK(line_from({"2b=3", "1=5", "2a=2+1"}, {}) == "5 2+1 3");
    CHECK(line_from({"2b=3:slip"}, Rest::full) == "5 4 3:slip");
    CHECK(line_from({"2b=3/6"}, Rest::none) == "- - 3");
    CHECK(line_from({}, Rest::full) == "5 4 6");
}

TEST_CASE("parts that no entry names are listed where nothing is said of the rest") {
    CHECK_THROWS_WITH(line_from({"2a=1"}, {}), StartsWith("no marks for 1, 2b"));
}

TEST_CASE("an entry that does not fit the paper is refused") {
    CHECK_THROWS_WITH(line_from({"3=1"}, Rest::full), StartsWith("paper made-up has no part 3"));
    CHECK_THROWS_WITH(line_from({"2=1"}, Rest::full), StartsWith("paper made-up has no part 2"));
    CHECK_THROWS_WITH(line_from({"1=1", "Q1=2"}, Rest::full), "part 1 is named twice");
    CHECK_THROWS_WITH(line_from({"1=1/6"}, Rest::full), "part 1 has 5 marks on file, not 6");
    CHECK_THROWS_WITH(line_from({"1=6"}, Rest::full), "part 1, marks '6': above the maximum of 5");
}

TEST_CASE("entries take codes where the paper has them") {
    const Paper paper({"coded", "", "", {}, RetryBy::question},
                      {{"1", Marks(3), "", "M1 A1 B1"}, {"2", Marks(2), "", ""}});
    const auto line = [&](const std::vector<std::string>& texts) {
        return to_line(marks_from_entries(paper, entries(texts), Rest::full));
    };
    CHECK(line({"1=M1A0B1"}) == "2:101 2");
    CHECK(line({"1=M1A0B0+B1/3:slip"}) == "1+1:slip:101 2");
    CHECK(line({"1=2:101"}) == "2:101 2");
    CHECK_THROWS_WITH(line({"1=M1B1"}), "part 1, A1 is not named: write A0 or A1");
    CHECK_THROWS_WITH(line({"2=B2"}), "part 2 has no codes on file: type its marks as numbers");
    CHECK_THROWS_WITH(line({"2=1:01"}), StartsWith("part 2, marks '1:01': the part has no codes on file"));
    CHECK_THROWS_WITH(line({"1=M1A0B1/4"}), "part 1 has 3 marks on file, not 4");
    CHECK(to_line(amended(paper, parse_line(paper, "0 1"), entries({"1=m0a0b1"}))) == "1:001 1");
    CHECK(to_line(amended(paper, parse_line(paper, "2:101 1"), entries({"1=2"}))) == "2 1");
}

TEST_CASE("only parts that are asked for may be named") {
    const Paper paper = example();
    CHECK(to_line(marks_from_entries(paper, {1, 2}, entries({"2b=1"}), Rest::full)) == "4 1");
    CHECK_THROWS_AS(marks_from_entries(paper, {1, 2}, entries({"1=1"}), Rest::full), Error);
}

TEST_CASE("amending changes the named parts alone") {
    const Paper paper = example();
    const auto before = parse_line(paper, "5 2:slip 3+1+2");
    CHECK(to_line(amended(paper, before, entries({"2b=4", "1=0"}))) == "0 2:slip 4");
    CHECK(to_line(amended(paper, before, {})) == to_line(before));
    CHECK_THROWS_AS(amended(paper, before, entries({"2b=4", "2b=5"})), Error);
    CHECK_THROWS_AS(amended(paper, before, entries({"9=4"})), Error);
}

TEST_CASE("a paper is made of entries that each give a maximum") {
    const Paper paper =
        paper_from_entries({"new", "", "", {}, RetryBy::question}, entries({"2a=1/4", "1=5/5"}));
    CHECK(paper.parts()[0].label == "2a");
    CHECK(paper.marks() == Marks(9));
    CHECK_THROWS_WITH(paper_from_entries({"new", "", "", {}, RetryBy::question}, entries({"1=2:slip"})),
                      "part 1: a new paper needs every part's maximum, such as 1=2/6");
    CHECK_THROWS_AS(paper_from_entries({"new", "", "", {}, RetryBy::question}, {}), Error);
}

TEST_CASE("what has not happened can't be on file") {
    CHECK_NOTHROW(check_has_happened(today, today, "a sitting"));
    CHECK_THROWS_WITH(check_has_happened(today + Days{1}, today, "a sitting"),
                      "a sitting on 2026-11-26 is in the future (today is 2026-11-25): check the date");
}

TEST_CASE("a line that does not fit the paper is refused") {
    for (const char* const line :
         {"", "5", "5 4", "5 4 6 1", "5  4 6", " 5 4 6", "5 4 7", "5 4 x", "5,4,6"}) {
        CAPTURE(line);
        CHECK_THROWS_AS(parse_line(example(), line), Error);
    }
}

TEST_CASE("marks of fewer or more parts than the paper has are refused") {
    const Paper paper = example();
    for (const std::size_t count : {0U, 2U, 4U}) {
        CAPTURE(count);
        const std::vector<PartMarks> parts(count);
        CHECK_THROWS_AS(totals(paper, parts), Error);
        CHECK_THROWS_AS(lost_by_reason(paper, parts), Error);
        CHECK_THROWS_AS(reach_of(paper, parts), Error);
        CHECK_THROWS_AS(missed_marks(paper, paper.question(0), parts), Error);
        CHECK_THROWS_AS(amended(paper, parts, {}), Error);
    }
    CHECK(totals(paper, std::vector<PartMarks>(3)).unearned() == Marks(15));
}

TEST_CASE("a part or a question that a paper doesn't have is refused") {
    const Paper paper = example();
    CHECK(paper.part(2).label == "2b");
    CHECK(paper.question(1).label == "2");
    CHECK_THROWS_AS(paper.part(3), Error);
    CHECK_THROWS_AS(paper.question(2), Error);
    const Question other{"9", {3}, Marks(1)};
    CHECK_THROWS_AS(missed_marks(paper, other, std::vector<PartMarks>(3)), Error);
    CHECK_THROWS_AS(marks_from_entries(paper, {3}, {}, Rest::full), Error);
    CHECK_THROWS_AS(parse_line(paper, {3}, "1"), Error);
}

TEST_CASE("what was amended in a sitting is told part by part, with what it was before") {
    const Paper paper({"made-up", "", "", {}, RetryBy::question},
                      {{"1", Marks(4), "", ""}, {"2a", Marks(6), "", ""}, {"2b", Marks(5), "", ""}});
    const auto on = [&](int days, int extra, const std::string& line) {
        return Sitting{Day{Days{20782 + days}}, ExtraTime(extra), parse_line(paper, line)};
    };
    const Sitting was = on(0, 0, "4 5+1 -");
    CHECK(differences(paper, was, was).empty());
    CHECK(differences(paper, was, on(0, 0, "4 4+1:slip 0")) ==
          std::vector<std::string>{"2a 5+1 -> 4+1:slip", "2b - -> 0"});
    CHECK(differences(paper, was, on(-1, 25, "4 5+1 -")) ==
          std::vector<std::string>{"date: Wed 25 Nov 2026 -> Tue 24 Nov 2026", "extra time: 0% -> 25%"});
}

TEST_CASE("a note that is new, changed or removed is a difference") {
    const Paper paper({"p", "", "", {}, RetryBy::question}, {{"1", Marks(5), "", ""}});
    Sitting was{Day{}, {}, {PartMarks()}};
    Sitting is = was;
    CHECK(differences(paper, was, is).empty());
    is.notes = {{"1", "sign"}};
    CHECK(differences(paper, was, is) == std::vector<std::string>{"note on 1: sign"});
    CHECK(differences(paper, is, was) == std::vector<std::string>{"note on 1: removed"});
    CHECK(differences(paper, is, is).empty());
}
