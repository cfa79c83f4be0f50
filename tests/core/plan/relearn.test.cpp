#include "inkturn/plan/relearn.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

std::string text_of(const std::vector<TopicToRelearn>& topics) {
    std::string text;
    for (const TopicToRelearn& one : topics)
        text += one.topic + " " + std::to_string(one.piece) + ": " + std::to_string(one.lost.count()) +
                " to " + std::to_string((one.possible_days.last - day(0)).count()) + "; ";
    return text;
}

} // namespace

TEST_CASE("a topic is relearned from today up to the day before the last one for the first of its retries") {
    Candidate candidate;
    sit(candidate, paper("pure-1", "pure"), day(0), 4); // question 5, integration: days 14 to 21
    sit(candidate, paper("pure-2", "pure"), day(4), 2); // 3 and 5 integration, 4 vectors: days 18 to 25
    std::vector<Retry> retries = retries_to_place(candidate, day(5));
    REQUIRE(retries.size() == 4);
    const std::string expected =
        "integration 1: 30 to 20; integration 2: 30 to 20; vectors 1: 10 to 24; vectors 2: 10 to 24; ";
    CHECK(text_of(topics_to_relearn(candidate, retries, day(5))) == expected);
    std::reverse(retries.begin(), retries.end());
    CHECK(text_of(topics_to_relearn(candidate, retries, day(5))) == expected);
    for (const TopicToRelearn& one : topics_to_relearn(candidate, retries, day(5)))
        CHECK(one.possible_days.first == day(5));
    candidate.placements = {{candidate.sittings[0].id, "5", day(16)}}; // it has its day: before that
    CHECK(topics_to_relearn(candidate, retries_to_place(candidate, day(5)), day(5))
              .front()
              .possible_days.last == day(15));
    CHECK(topics_to_relearn(candidate, retries_to_place(candidate, day(16)), day(16))
              .front()
              .possible_days.last == day(16));
}

TEST_CASE("a late retry waits for its topic by a week at most") {
    Candidate candidate;
    sit(candidate, paper("pure-1", "pure"), day(0), 4);
    CHECK(text_of(topics_to_relearn(candidate, retries_to_place(candidate, day(30)), day(30))) ==
          "integration 1: 10 to 36; integration 2: 10 to 36; ");
}

TEST_CASE("what was relearned since the latest marks went is off the list") {
    Candidate candidate;
    sit(candidate, paper("pure-1", "pure"), day(0), 4);
    sit(candidate, paper("pure-2", "pure"), day(4), 4);
    const auto pieces = [&](int on, bool half, const std::string& subject = "pure",
                            const std::string& topic = "integration") {
        candidate.relearned = {{subject, topic, day(on), half}};
        return topics_to_relearn(candidate, open_retries(candidate, day(6)), day(6)).size();
    };
    CHECK(pieces(3, false) == 2);
    CHECK(pieces(4, false) == 0);
    CHECK(pieces(4, true) == 1);
    CHECK(pieces(5, false, "mechanics") == 2);
    CHECK(pieces(5, false, "pure", "vectors") == 2);
}

TEST_CASE("a topic has two pieces, however often it was done") {
    const std::vector<Relearned> thrice{
        {"pure", "logs", day(1), true}, {"pure", "logs", day(2), false}, {"pure", "logs", day(3), true}};
    CHECK(pieces_relearned(thrice, "pure", "logs", day(0)) == 2);
    CHECK(pieces_relearned(thrice, "pure", "logs", day(3)) == 1);
    CHECK(pieces_relearned(thrice, "pure", "logs", day(4)) == 0);
}

TEST_CASE("what a re-attempt lost for method counts, in place of what was lost before it") {
    Candidate candidate;
    sit(candidate, paper("pure-1", "pure"), day(0), 4);
    candidate.sittings[0].reattempts.push_back(
        {"5", 1, day(14), parse_line(*candidate.sittings[0].paper, {4}, "7:method")});
    const std::vector<Retry> retries = open_retries(candidate, day(15));
    REQUIRE(retries.size() == 1);
    CHECK(lost_for_method(candidate, retries[0]) == std::map<std::string, Marks>{{"integration", Marks(3)}});
    candidate.sittings[0].reattempts[0].parts = parse_line(*candidate.sittings[0].paper, {4}, "7:slip");
    CHECK(lost_for_method(candidate, retries[0]).empty());
    candidate.sittings[0].reattempts[0].turn = 7;
    CHECK(lost_for_method(candidate, retries[0]).at("integration") == Marks(10));
}

TEST_CASE("a retry for which no day is left has no topic to relearn before it") {
    Candidate candidate;
    sit(candidate, paper("pure-1", "pure"), day(0), 4);
    std::vector<Retry> retries = open_retries(candidate, day(1));
    CHECK(topics_to_relearn(candidate, retries, day(1)).size() == 2);
    retries[0].possible_days.reset();
    CHECK(topics_to_relearn(candidate, retries, day(1)).empty());
    retries = open_retries(candidate, day(1));
    retries[0].window.reset();
    CHECK(topics_to_relearn(candidate, retries, day(1)).empty());
}
