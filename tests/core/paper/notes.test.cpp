#include "inkturn/paper/notes.hpp"

#include "catch.hpp"
#include "refusal.hpp"

#include <string>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

Paper two_questions() {
    return Paper({"made-up", "", "", {}, RetryBy::question},
                 {{"1", Marks(3), "", ""}, {"2a", Marks(3), "", ""}, {"2b", Marks(3), "", ""}});
}

} // namespace

TEST_CASE("a note has 1 to 200 printable characters") {
    CHECK_NOTHROW(check_note("1", std::string(200, 'x')));
    CHECK_THROWS_AS(check_note("1", std::string(201, 'x')), Error);
    std::string accents;
    for (int i = 0; i < 200; ++i)
        accents += "\xc3\xa9";
    CHECK_NOTHROW(check_note("1", accents));
    CHECK_THROWS_WITH(check_note("2a", ""), StartsWith("the note on part 2a: 1 to 200 characters"));
    CHECK_THROWS_AS(check_note("1", "one\ntwo"), Error);
}

TEST_CASE("a note is on a part of the paper, and of the question that is retried") {
    const Paper paper = two_questions();
    CHECK_NOTHROW(check_fits(paper, all_positions(paper), {{"1", "a"}, {"2b", "b"}}));
    CHECK_THROWS_WITH(check_fits(paper, all_positions(paper), {{"3", "a"}}),
                      Contains("paper made-up has no part 3"));
    CHECK_NOTHROW(check_fits(paper, paper.questions()[1].parts, {{"2a", "a"}}));
    CHECK_THROWS_WITH(check_fits(paper, paper.questions()[1].parts, {{"1", "a"}}),
                      StartsWith("part 1 does not belong to the question that is retried"));
}

TEST_CASE("a note that is typed replaces the one before, and one without a text removes it") {
    const Notes before{{"1", "one"}, {"2a", "two"}};
    CHECK(amended(before, {{"2a", "other"}, {"2b", "new"}}) ==
          Notes{{"1", "one"}, {"2a", "other"}, {"2b", "new"}});
    CHECK(amended(before, {{"1", ""}, {"2b", ""}}) == Notes{{"2a", "two"}});
}
