#include "inkturn/facts/fact.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <string>

namespace {

using namespace inkturn;
using Catch::Matchers::Equals;

Fact fact(const std::string& answer, const std::string& topic = "") {
    return {FactId{7}, "a^(0)", answer, topic, "pure"};
}

} // namespace

TEST_CASE("prompt and answer have 1 to 300 printable characters, no spaces at either end") {
    CHECK_NOTHROW(check_fact(fact("1", "indices")));
    CHECK_NOTHROW(check_answer(std::string(300, 'x')));
    CHECK_THROWS_WITH(check_answer(std::string(301, 'x')), Equals("answer: at most 300 characters"));
    CHECK_THROWS_WITH(check_prompt(""), Equals("prompt: give 1 to 300 characters, no spaces at either end"));
    CHECK_THROWS_AS(check_prompt(" a^(0)"), Error);
    CHECK_THROWS_AS(check_answer("1 "), Error);
    CHECK_THROWS_WITH(check_answer("cos\nx"), Equals("answer: no line breaks or control characters, please"));
    CHECK_THROWS_WITH(check_prompt("\xFF"), Equals("prompt: the text is not valid UTF-8"));
    CHECK_THROWS_AS(check_topic(std::string(201, 'x')), Error);
    Fact other = fact("1");
    other.subject = std::string(201, 'x');
    CHECK_THROWS_AS(check_fact(other), Error);
}

TEST_CASE("a fact told again is unchanged, completed by a topic or contradicted") {
    CHECK(match_fact(fact("1"), fact("1")) == FactMatch::unchanged);
    CHECK(match_fact(fact("1", "indices"), fact("1")) == FactMatch::unchanged);
    CHECK(match_fact(fact("1"), fact("1", "indices")) == FactMatch::completed);
    CHECK(match_fact(fact("1", "limits"), fact("1", "indices")) == FactMatch::contradicted);
    CHECK(match_fact(fact("1"), fact("0")) == FactMatch::contradicted);
    CHECK(match_fact(fact("1"), fact("0", "indices")) == FactMatch::contradicted);
}

TEST_CASE("what was told takes the place of the answer, and of the topic where it states one") {
    Fact incoming = fact("0");
    incoming.id = FactId{1};
    CHECK(updated_fact(fact("1", "indices"), incoming).id == FactId{7});
    CHECK(updated_fact(fact("1", "indices"), incoming).answer == "0");
    CHECK(updated_fact(fact("1", "indices"), incoming).topic == "indices");
    CHECK(updated_fact(fact("1", "limits"), fact("1", "indices")).topic == "indices");
}

TEST_CASE("a fact is found by its number") {
    const std::vector<Fact> facts{fact("1")};
    CHECK(find_fact(facts, FactId{7}) == &facts[0]);
    CHECK(find_fact(facts, FactId{8}) == nullptr);
}
