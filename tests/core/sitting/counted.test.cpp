#include "inkturn/sitting/sitting.hpp"

#include "catch.hpp"
#include "choices.hpp"
#include "dice.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/desk/cost.hpp"

#include <algorithm>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;
using inkturn::test::paper_with_choice;
using inkturn::test::pick;

std::vector<PartMarks> marks(const std::string& line) {
    return parse_line(paper_with_choice(), line);
}

std::string counting_labels(const std::string& line) {
    const Paper paper = paper_with_choice();
    const std::vector<bool> counts = counting(marks(line));
    std::string labels;
    for (std::size_t i = 0; i < counts.size(); ++i)
        if (counts[i])
            labels += paper.part(i).label + " ";
    return labels;
}

std::string line_from(const std::vector<std::string>& texts, std::optional<Rest> rest,
                      const std::string& only = "") {
    const Paper paper = paper_with_choice();
    std::vector<Entry> entries;
    for (const std::string& text : texts)
        entries.push_back(parse_entry(text));
    std::optional<std::vector<std::size_t>> set;
    if (!only.empty())
        set = parts_set(paper, only);
    return to_line(marks_from_entries(paper, entries, rest, set));
}

} // namespace

TEST_CASE("what was not set is written not-set, has no marks and no reason") {
    const PartMarks none = parse_part_marks("not-set", Marks(5));
    CHECK_FALSE(none.is_set());
    CHECK_FALSE(none.counts());
    CHECK_FALSE(none.attempted());
    CHECK(none == PartMarks::not_set());
    CHECK(none != PartMarks());
    CHECK(to_text(none) == "not-set");
    for (const char* text : {"not-set:slip", "not-set:1", "not-set+1", "not set", "NOT-SET"})
        CHECK_THROWS_AS(parse_part_marks(text, Marks(5)), Error);
}

TEST_CASE("what was not set counts in no sum") {
    const Paper paper = paper_with_choice();
    const auto parts = marks("3 not-set 2:method not-set not-set not-set not-set");
    CHECK(totals(paper, parts).max == Marks(9));
    CHECK(totals(paper, parts).unearned() == Marks(4));
    CHECK(lost_by_reason(paper, parts).all() == Marks(4));
    CHECK(lost_by_reason(paper, parts).of(Reason::method) == Marks(3));
    CHECK(reach_of(paper, parts) == Marks(9));
    CHECK(missed_marks(paper, paper.question(1), parts) == Marks(3));
    CHECK(missed_marks(paper, paper.question(2), parts) == Marks(0));
    CHECK(cost(paper, parts).knowledge() == Marks(4));
    CHECK(cost(paper, parts).pace() == Marks(0));
    CHECK_FALSE(is_whole(paper, parts));
    CHECK(allowance(paper, Sitting{Day(), {}, parts}) == Seconds(9 * 72));
    CHECK(allowance(paper, Sitting{Day(), ExtraTime(25), parts}) == Seconds(9 * 90));
}

TEST_CASE("of a choice the best count, the first if tied") {
    CHECK(counting_labels("4 3 5 4 6 10 9") == "1 2a 2b B3a B3b B4 ");
    CHECK(counting_labels("4 3 5 1 6 10 9") == "1 2a 2b B4 B5 ");
    CHECK(counting_labels("4 3 5 4 1 5 5") == "1 2a 2b B3a B3b B4 ");
    CHECK(counting_labels("4 3 5 4 0+1 5 5") == "1 2a 2b B4 B5 ");        // as many unaided, fewer in time
    CHECK(counting_labels("4 3 5 0 0+0+6 0 -") == "1 2a 2b B3a B3b B4 "); // corrections don't make it better
    CHECK(counting_labels("4 3 5 - - 1 0") == "1 2a 2b B4 B5 ");
}

TEST_CASE("where fewer were tried than count, marks are lost on no part") {
    const Paper paper = paper_with_choice();
    const auto parts = marks("4 3 5 - - 7:slip -");
    CHECK(totals(paper, parts).max == Marks(32));
    CHECK(totals(paper, parts).unaided() == Marks(19));
    CHECK(marks_left_open(paper, parts) == Marks(10));
    CHECK(lost_by_reason(paper, parts).left_open == Marks(10));
    CHECK(lost_by_reason(paper, parts).all() == Marks(13));
    CHECK(cost(paper, parts).not_attempted == Marks(10));
    CHECK(missed_marks(paper, paper.question(2), parts) == Marks(0));
    CHECK(missed_marks(paper, paper.question(3), parts) == Marks(3));
    CHECK(is_whole(paper, parts));
    CHECK(marks_left_open(paper, marks("4 3 5 - - - -")) == Marks(20));
}

TEST_CASE("of a choice no more can count than was set") {
    const Paper paper = paper_with_choice();
    const auto one_of_one = marks("4 3 5 not-set not-set - not-set");
    CHECK(totals(paper, one_of_one).max == Marks(22));
    CHECK(marks_left_open(paper, one_of_one) == Marks(10));
    const auto two_of_two = marks("4 3 5 not-set not-set 2 3");
    CHECK(totals(paper, two_of_two).max == Marks(32));
    CHECK(is_whole(paper, two_of_two));
}

TEST_CASE("entries with parts set") {
    CHECK(line_from({"2b=4"}, Rest::full, "1-2") == "4 3 4 not-set not-set not-set not-set");
    CHECK(line_from({"1=4", "2b=0"}, std::nullopt, "1,2b") == "4 not-set 0 not-set not-set not-set not-set");
    CHECK(line_from({"B4=1"}, Rest::none, "B4") == "not-set not-set not-set not-set not-set 1 not-set");
    CHECK_THROWS_WITH(line_from({"2a=1"}, Rest::full, "1"), Contains("2a is not among the parts"));
    CHECK_THROWS_WITH(line_from({}, std::nullopt, "1"), Contains("no marks for 1"));
    CHECK_THROWS_WITH(line_from({"B3a=1"}, Rest::full, "B3a"), Contains("whole or not at all"));
    CHECK(line_from({"1=not-set"}, Rest::full) == "not-set 3 5 - - - -");
}

TEST_CASE("a rest in full fills no choice, but a question of it that was begun") {
    CHECK(line_from({}, Rest::full) == "4 3 5 - - - -");
    CHECK(line_from({"B3a=2"}, Rest::full) == "4 3 5 2 6 - -");
    CHECK(line_from({"1=4", "2a=3", "2b=5", "B4=1", "B5=2"}, std::nullopt) == "4 3 5 - - 1 2");
    CHECK_THROWS_WITH(line_from({"1=4", "2a=3", "2b=5", "B5=2"}, std::nullopt),
                      Contains("no marks for B3a, B3b, B4"));
}

TEST_CASE("amending works from set to not set and back, and chooses anew") {
    const Paper paper = paper_with_choice();
    const auto amend = [&](const std::string& line, const std::string& entry) {
        return amended(paper, marks(line), {parse_entry(entry)});
    };
    const auto not_set = amend("4 3 5 - - 9 8", "2a=not-set");
    CHECK(to_line(not_set) == "4 not-set 5 - - 9 8");
    CHECK(totals(paper, not_set).max == Marks(29));
    CHECK(totals(paper, amended(paper, not_set, {parse_entry("2a=1")})).max == Marks(32));
    CHECK(counting(amend("4 3 5 4 6 9 8", "B3a=0"))[3] == false);
    CHECK_THROWS_WITH(amend("4 3 5 4 6 9 8", "B3a=not-set"), Contains("whole or not at all"));
    CHECK_THROWS_WITH(amend("4 not-set not-set not-set not-set not-set not-set", "1=not-set"),
                      Contains("at least one part"));
}

TEST_CASE("for any marks the sums agree, and what counts is the best there is") {
    const Paper paper = paper_with_choice();
    std::mt19937 dice(11);
    for (int round = 0; round < 2000; ++round) {
        const bool has_b[] = {pick(dice, 0, 3) > 0, pick(dice, 0, 3) > 0, pick(dice, 0, 3) > 0};
        std::vector<PartMarks> parts;
        for (std::size_t i = 0; i < paper.parts().size(); ++i) {
            const bool set = i == 0 || (i < 3 ? pick(dice, 0, 3) > 0 : has_b[i < 5 ? 0 : i - 4]);
            const int kind = pick(dice, 0, 4);
            if (!set)
                parts.push_back(PartMarks::not_set());
            else if (kind == 0)
                parts.emplace_back();
            else
                parts.push_back(
                    PartMarks({Marks(pick(dice, 0, paper.part(i).max.count()))}, paper.part(i).max));
        }
        count_chosen(paper, parts);
        CHECK(parse_line(paper, to_line(parts)) == parts);

        const Totals sum = totals(paper, parts);
        CHECK(lost_by_reason(paper, parts).all() == sum.max - sum.unaided());
        CHECK(sum.max <= paper.marks());
        Marks missed;
        for (const Question& question : paper.questions())
            missed += missed_marks(paper, question, parts);
        CHECK(missed + marks_left_open(paper, parts) == sum.max - sum.unaided());

        std::vector<int> of_choice;
        Marks others;
        for (const Question& question : paper.questions()) {
            Marks earned;
            for (const std::size_t part : question.parts)
                earned += parts[part].unaided();
            if (paper.part(question.parts[0]).choice)
                of_choice.push_back(earned.count());
            else
                others += earned;
        }
        std::sort(of_choice.rbegin(), of_choice.rend());
        CHECK(sum.unaided().count() == others.count() + of_choice[0] + of_choice[1]);
    }
}

TEST_CASE("where no more questions of a choice were set than count, there is nothing to choose") {
    const Paper paper = paper_with_choice();
    const auto line = [&](const std::string& only) {
        return to_line(marks_from_entries(paper, {}, Rest::full, parts_set(paper, only)));
    };
    CHECK(line("1-2,B3-B4") == "4 3 5 4 6 10 not-set");
    CHECK(line("1,B5") == "4 not-set not-set not-set not-set not-set 10");
    CHECK(line("1-2,B3-B5") == "4 3 5 - - - -");
}
