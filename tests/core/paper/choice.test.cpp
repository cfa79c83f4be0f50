#include "inkturn/paper/paper.hpp"

#include "catch.hpp"
#include "choices.hpp"
#include "inkturn/base/error.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;
using inkturn::test::paper_with_choice;

Part part(const std::string& label, int max, const std::string& choice) {
    Part one{label, Marks(max), "", ""};
    if (!choice.empty())
        one.choice = parse_choice(choice);
    return one;
}

Paper made_of(std::vector<Part> parts) {
    return Paper({"chosen", "", "", {}, RetryBy::question}, std::move(parts));
}

std::string named(const std::string& text) {
    const Paper paper = paper_with_choice();
    std::string labels;
    for (const std::size_t position : positions_named(paper, text))
        labels += paper.part(position).label + " ";
    return labels;
}

} // namespace

TEST_CASE("a choice is a group and how many of its questions count") {
    CHECK(parse_choice("B 2").group == "B");
    CHECK(parse_choice("B 2").count == 2);
    CHECK(parse_choice("Section B  3").group == "Section B");
    CHECK(to_text(parse_choice("Section B  3")) == "Section B 3");
    for (const char* text : {"", "B", "2", " 2", "B 0", "B two", "B -1", "B 2 "})
        CHECK_THROWS_AS(parse_choice(text), Error);
}

TEST_CASE("a paper's marks are those that count") {
    CHECK(paper_with_choice().marks() == Marks(32));
    REQUIRE(paper_with_choice().choices().size() == 1);
    CHECK(paper_with_choice().choices()[0].questions.size() == 3);
    CHECK(paper_with_choice().choices()[0].questions[0].parts == std::vector<std::size_t>{3, 4});
}

TEST_CASE("a choice is between whole questions of equal marks, of which fewer count than there are") {
    CHECK_NOTHROW(made_of({part("1", 5, "B 1"), part("2", 5, "B 1")}));
    CHECK_THROWS_WITH(made_of({part("1", 5, "B 1"), part("2", 6, "B 1")}), Contains("must be equal"));
    CHECK_THROWS_WITH(made_of({part("1", 5, "B 2"), part("2", 5, "B 2")}), Contains("fewer must count"));
    CHECK_THROWS_WITH(made_of({part("1", 5, "B 1"), part("2", 5, "B 2")}), Contains("choice B"));
    CHECK_THROWS_WITH(made_of({part("1a", 5, "B 1"), part("1b", 5, ""), part("2", 10, "B 1")}),
                      Contains("question 1"));
}

TEST_CASE("parts are named by part, question and range") {
    CHECK(named("1") == "1 ");
    CHECK(named("2") == "2a 2b ");
    CHECK(named("2b") == "2b ");
    CHECK(named("1-2") == "1 2a 2b ");
    CHECK(named("2b-B3") == "2b B3a B3b ");
    CHECK(named("B5,1,1") == "1 B5 ");
    CHECK(named("1-2a,B4") == "1 2a B4 ");
    CHECK_THROWS_WITH(named("9"), Contains("no question or part 9"));
    CHECK_THROWS_WITH(named("B3-1"), Contains("B3 comes after 1"));
    for (const char* text : {"", "1,", ",1", "1-", "-1", "1-2-3", "1 to 2"})
        CHECK_THROWS_AS(named(text), Error);
}
