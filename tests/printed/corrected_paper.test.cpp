#include "inkturn/printed/corrected_paper.hpp"

#include "catch.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;

Part part(const std::string& label, int marks, const std::string& codes = "") {
    return {label, Marks(marks), "", codes};
}

/// Question 1 of 5 marks on the second page, question 2 of 8 on the third, of which nothing was read at 2b.
PrintedPaper read() {
    PrintedPaper paper;
    paper.total = Marks(13);
    paper.parts = {{"1", Marks(5), 1}, {"2a", Marks(3), 2}, {"2b", std::nullopt, 2}};
    paper.questions = {{"1", {0}, Marks(5), {{1, 0, 10, 0, 10}}},
                       {"2", {1, 2}, Marks(8), {{2, 0, 10, 0, 10}}}};
    paper.doubts = {{2, "part 2b has no marks"}};
    return paper;
}

std::vector<std::string> doubts(const std::vector<Part>& parts) {
    std::vector<std::string> texts;
    for (const Doubt& doubt : corrected(read(), parts).doubts)
        texts.push_back((doubt.page ? std::to_string(*doubt.page) + " " : "") + doubt.message);
    return texts;
}

} // namespace

TEST_CASE("parts corrected by hand take the place of those read, where they stand in print") {
    const PrintedPaper paper = corrected(read(), {part("1", 5), part("2a", 3), part("2b", 5)});
    CHECK(paper.doubts.empty());
    REQUIRE(paper.parts.size() == 3);
    CHECK(paper.parts[2].marks == Marks(5));
    CHECK(paper.parts[2].page == 2u);
    CHECK(paper.questions[1].parts == std::vector<std::size_t>{1, 2});
    CHECK(paper.questions[1].strips.size() == 1);
    CHECK(paper.total == Marks(13));
}

TEST_CASE("what corrected parts disagree with in print is told") {
    CHECK(doubts({part("1", 5), part("2a", 3), part("2b", 4)}) ==
          std::vector<std::string>{"2 question 2: its parts add up to 7 marks, its total says 8",
                                   "the parts add up to 12 marks, the paper says 13"});
    CHECK(doubts({part("2a", 8), part("3", 5)}) ==
          std::vector<std::string>{"question 3 was not found in print: it has no picture",
                                   "1 question 1 was read here and has no part"});
}

TEST_CASE("a corrected part that was not read stands on no page") {
    const PrintedPaper paper = corrected(read(), {part("1", 5), part("2a", 3), part("2b", 2), part("2c", 3)});
    CHECK(paper.doubts.empty());
    CHECK_FALSE(paper.parts[3].page);
}

TEST_CASE("the codes of corrected parts are those typed, past doubt") {
    PrintedScheme scheme;
    scheme.parts = {{"1", "M1 A4"}};
    scheme.doubts = {{0, "the codes of part 2a add up to 2"}};
    scheme.questions = {{"1", {}, std::nullopt, {{0, 0, 10, 0, 10}}}};
    const PrintedScheme now = corrected(scheme, {part("1", 5, "M2 A3"), part("2a", 3)});
    REQUIRE(now.parts.size() == 2);
    CHECK(now.parts[0].codes == "M2 A3");
    CHECK(now.parts[1].codes.empty());
    CHECK(now.doubts.empty());
    CHECK(now.questions.size() == 1);
}
