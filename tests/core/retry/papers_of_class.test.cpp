#include "inkturn/retry/papers_of_class.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"

namespace {

using namespace inkturn;
using namespace inkturn::test;

} // namespace

TEST_CASE("the papers that were imported or marked for a class are its papers, however few sat them") {
    CHECK(papers_of_class({{"own-1", false, 6}, {"pure-1", true, 1}, {"pure-2", true, 0}}, 12) ==
          PaperIds{"pure-1", "pure-2"});
}

TEST_CASE("those that more than half of a class sat are its papers too, whatever they were imported for") {
    CHECK(papers_of_class({{"a", false, 6}, {"b", false, 7}, {"c", false, 1}}, 12) == PaperIds{"b"});
    CHECK(papers_of_class({{"a", false, 1}}, 1) == PaperIds{"a"});
    CHECK(papers_of_class({{"a", false, 1}}, 2).empty());
    CHECK(papers_of_class({}, 0).empty());
}

TEST_CASE("what somebody began is others' unless a class of the candidate was set it") {
    CHECK(papers_of_others({"own-1", "pure-1", "mech-1"}, {{"pure-1"}, {"pure-2"}}) ==
          PaperIds{"mech-1", "own-1"});
    CHECK(papers_of_others({"own-1"}, {}).empty());
}

TEST_CASE("a candidate is left with the sittings of some papers") {
    Candidate candidate;
    sit(candidate, paper("own-1", "pure"), day(0), 5);
    sit(candidate, paper("pure-1", "pure"), day(1), 5);
    keep_sittings_of({"pure-1", "pure-9"}, candidate);
    REQUIRE(candidate.sittings.size() == 1);
    CHECK(candidate.sittings[0].paper->id() == "pure-1");
}
