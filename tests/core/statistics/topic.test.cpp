#include "inkturn/statistics/topic.hpp"

#include "catch.hpp"
#include "papers.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// Question 1 is one part, question 2 two, the last without a topic.
std::shared_ptr<const Paper> paper(const std::string& id, RetryBy by = RetryBy::question) {
    return std::make_shared<const Paper>(PaperHead{id, "", "pure", {}, by},
                                         std::vector<Part>{{"1", Marks(5), "vectors", ""},
                                                           {"2a", Marks(4), "series", ""},
                                                           {"2b", Marks(6), "", ""}});
}

void retry(SittingRecord& record, const std::string& question, int turn, const std::string& line) {
    const std::size_t position = *record.paper->find_question(question);
    record.reattempts.push_back({question, turn, monday + Days{20 * turn},
                                 parse_line(*record.paper, record.paper->questions()[position].parts, line)});
}

std::string lines(const std::vector<PaperMarks>& all) {
    std::string text;
    for (const PaperMarks& marks : all)
        text += (text.empty() ? "" : " | ") + marks.paper->id() + " " + to_line(marks.parts);
    return text;
}

std::string unseen(const std::vector<SittingRecord>& sittings, const std::vector<Copies>& copies = {}) {
    Candidate candidate;
    candidate.sittings = sittings;
    return lines(unseen_marks(candidate, copies));
}

std::string again(const std::vector<SittingRecord>& sittings) {
    Candidate candidate;
    candidate.sittings = sittings;
    return lines(reattempted_marks(candidate));
}

const std::string none = "not-set not-set not-set";

} // namespace

TEST_CASE("the marks of a paper's first sitting are unseen, those of later ones are not") {
    CHECK(unseen({sat(7, paper("p1"), 0, "5 4 6"), sat(3, paper("p2"), 1, "1 1 1"),
                  sat(8, paper("p1"), 2, "2 2 2")}) == "p1 5 4 6 | p2 1 1 1");
}

TEST_CASE("parts that were set later are unseen in that later sitting") {
    CHECK(unseen({sat(1, paper("p1"), 0, "5 not-set not-set"), sat(2, paper("p1"), 5, "4 3 2")}) ==
          "p1 5 not-set not-set | p1 not-set 3 2");
}

TEST_CASE("a part that was set and not tried counts as seen") {
    CHECK(unseen({sat(1, paper("p1"), 0, "- - 2"), sat(2, paper("p1"), 5, "4 3 2")}) == "p1 - - 2");
}

TEST_CASE("a question is unseen in one of its copies alone, whichever came first") {
    const std::vector<Copies> copies{{{"p1", "2"}, {"drawn", "1"}}};
    const auto drawn = std::make_shared<const Paper>(
        PaperHead{"drawn", "", "pure", {}, RetryBy::question},
        std::vector<Part>{{"1a", Marks(4), "series", ""}, {"1b", Marks(6), "", ""}});
    CHECK(unseen({sat(1, paper("p1"), 0, "5 4 6"), sat(2, drawn, 5, "1 1")}, copies) == "p1 5 4 6");
    CHECK(unseen({sat(1, drawn, 0, "1 1"), sat(2, paper("p1"), 5, "5 4 6")}, copies) ==
          "drawn 1 1 | p1 5 not-set not-set");
    CHECK(unseen({sat(1, drawn, 0, "1 not-set"), sat(2, paper("p1"), 5, "5 4 6")}, copies) ==
          "drawn 1 not-set | p1 5 not-set 6");
    CHECK(unseen({sat(1, drawn, 0, "1 1"), sat(2, paper("p1"), 5, "5 4 6")}) == "drawn 1 1 | p1 5 4 6");
}

TEST_CASE("copies of copies are one question too") {
    const std::vector<Copies> copies{{{"p1", "1"}, {"p2", "1"}, {"p3", "1"}}};
    CHECK(unseen({sat(1, paper("p3"), 0, "5 4 6"), sat(2, paper("p2"), 5, "1 2 3"),
                  sat(3, paper("p1"), 9, "2 2 2")},
                 copies) == "p3 5 4 6 | p2 not-set 2 3 | p1 not-set 2 2");
}

TEST_CASE("unseen marks know their sitting's day and extra time") {
    Candidate candidate;
    candidate.sittings = {sat(1, paper("p1"), 3, "5 4 6")};
    candidate.sittings[0].sitting.extra_time = ExtraTime(25);
    const auto marks = unseen_marks(candidate);
    REQUIRE(marks.size() == 1);
    CHECK(marks[0].day == day(3));
    CHECK(marks[0].extra_time.percent() == 25);
}

TEST_CASE("re-attempts change no unseen marks and stand apart, the last one of each question") {
    std::vector<SittingRecord> sittings{sat(1, paper("p1"), 0, "2 1 6")};
    CHECK(again(sittings).empty());
    retry(sittings[0], "2", 1, "4 6");
    retry(sittings[0], "2", 2, "3 2+1");
    CHECK(unseen(sittings) == "p1 2 1 6");
    CHECK(again(sittings) == "p1 not-set 3 2+1");
}

TEST_CASE("a re-attempt of a paper that is retried by part is of that part alone") {
    std::vector<SittingRecord> sittings{sat(1, paper("p1", RetryBy::part), 0, "2 1 3")};
    retry(sittings[0], "2b", 1, "5");
    CHECK(again(sittings) == "p1 not-set not-set 5");
}

TEST_CASE("a re-attempt before a later sitting of its part is not the latest") {
    std::vector<SittingRecord> sittings{sat(1, paper("p1"), 0, "2 1 3"), sat(2, paper("p1"), 1, "1 0 0")};
    retry(sittings[0], "1", 1, "5");
    CHECK(again(sittings).empty());
    sittings[1] = sat(2, paper("p1"), 1, "not-set 0 0");
    CHECK(again(sittings) == "p1 5 not-set not-set");
}

TEST_CASE("a candidate who sat nothing has neither") {
    CHECK(unseen({}).empty());
    CHECK(again({}).empty());
    CHECK(unseen({sat(1, paper("p1"), 0, none)}).empty());
}
