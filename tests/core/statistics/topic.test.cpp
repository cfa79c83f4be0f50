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

std::string lines(const Candidate& candidate) {
    std::string text;
    for (const LatestMarks& marks : latest_marks(candidate))
        text += (text.empty() ? "" : " | ") + marks.paper->id() + " " + to_line(marks.parts);
    return text;
}

} // namespace

TEST_CASE("a paper's latest marks are those of its latest sitting, by day and then by id") {
    Candidate candidate;
    candidate.sittings = {sat(7, paper("p1"), 0, "5 4 6"), sat(3, paper("p2"), 1, "1 1 1"),
                          sat(8, paper("p1"), 2, "2 2 2"), sat(9, paper("p1"), 2, "3 3 3")};
    CHECK(lines(candidate) == "p2 1 1 1 | p1 3 3 3");
}

TEST_CASE("the last re-attempt's marks replace those of its question's parts, were they better or not") {
    Candidate candidate;
    candidate.sittings = {sat(1, paper("p1"), 0, "2 1 6")};
    retry(candidate.sittings[0], "2", 1, "4 6");
    retry(candidate.sittings[0], "2", 2, "3 2+1");
    CHECK(lines(candidate) == "p1 2 3 2+1");
}

TEST_CASE("a re-attempt of a paper that is retried by part replaces that part alone") {
    Candidate candidate;
    candidate.sittings = {sat(1, paper("p1", RetryBy::part), 0, "2 1 3")};
    retry(candidate.sittings[0], "2b", 1, "5");
    CHECK(lines(candidate) == "p1 2 1 5");
}

TEST_CASE("a re-attempt counts for no later sitting of the same paper") {
    Candidate candidate;
    candidate.sittings = {sat(1, paper("p1"), 0, "2 1 3"), sat(2, paper("p1"), 1, "1 0 0")};
    retry(candidate.sittings[0], "1", 1, "5");
    CHECK(lines(candidate) == "p1 1 0 0");
}

TEST_CASE("a candidate who sat nothing has no latest marks") {
    CHECK(latest_marks(Candidate{}).empty());
}
