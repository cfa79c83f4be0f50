#include "inkturn/facts/fact.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <string>

namespace {

using namespace inkturn;
using Catch::Matchers::Equals;

Fact fact(const std::string& answer, const std::string& topic = "") {
    return {FactId{7}, "derivative of sin x", answer, topic, "pure"};
}

} // namespace

TEST_CASE("prompt and answer have 1 to 300 printable characters, no blank at the ends") {
    CHECK_NOTHROW(check_fact(fact("cos x", "derivatives")));
    CHECK_NOTHROW(check_answer(std::string(300, 'x')));
    CHECK_THROWS_WITH(check_answer(std::string(301, 'x')), Equals("answer: at most 300 characters"));
    CHECK_THROWS_WITH(check_prompt(""), Equals("prompt: give 1 to 300 characters, no blank at the ends"));
    CHECK_THROWS_AS(check_prompt(" sin x"), Error);
    CHECK_THROWS_AS(check_answer("cos x "), Error);
    CHECK_THROWS_WITH(check_answer("cos\nx"), Equals("answer: no line breaks or control characters, please"));
    CHECK_THROWS_WITH(check_prompt("\xFF"), Equals("prompt: the text is not valid UTF-8"));
    CHECK_THROWS_AS(check_topic(std::string(201, 'x')), Error);
    Fact other = fact("cos x");
    other.subject = std::string(201, 'x');
    CHECK_THROWS_AS(check_fact(other), Error);
}

TEST_CASE("a fact told again is unchanged, completed by a topic or contradicted") {
    CHECK(match_fact(fact("cos x"), fact("cos x")) == FactMatch::unchanged);
    CHECK(match_fact(fact("cos x", "derivatives"), fact("cos x")) == FactMatch::unchanged);
    CHECK(match_fact(fact("cos x"), fact("cos x", "derivatives")) == FactMatch::completed);
    CHECK(match_fact(fact("cos x", "limits"), fact("cos x", "derivatives")) == FactMatch::contradicted);
    CHECK(match_fact(fact("cos x"), fact("-cos x")) == FactMatch::contradicted);
    CHECK(match_fact(fact("cos x"), fact("-cos x", "derivatives")) == FactMatch::contradicted);
}

TEST_CASE("what was told takes the place of the answer, and of the topic where it states one") {
    Fact incoming = fact("-cos x");
    incoming.id = FactId{1};
    CHECK(updated_fact(fact("cos x", "derivatives"), incoming).id == FactId{7});
    CHECK(updated_fact(fact("cos x", "derivatives"), incoming).answer == "-cos x");
    CHECK(updated_fact(fact("cos x", "derivatives"), incoming).topic == "derivatives");
    CHECK(updated_fact(fact("cos x", "limits"), fact("cos x", "derivatives")).topic == "derivatives");
}

TEST_CASE("a fact is found by its number") {
    const std::vector<Fact> facts{fact("cos x")};
    CHECK(find_fact(facts, FactId{7}) == &facts[0]);
    CHECK(find_fact(facts, FactId{8}) == nullptr);
}
