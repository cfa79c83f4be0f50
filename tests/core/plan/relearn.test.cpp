#include "inkturn/plan/relearn.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "papers.hpp"

#include <algorithm>
#include <memory>
#include <string>
#include <variant>
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

std::string names(const std::vector<WeakTopic>& weak) {
    std::string text;
    for (const WeakTopic& one : weak)
        text += (text.empty() ? "" : " ") + one.topic;
    return text;
}

/// Two parts of 5 marks each on logs, surds, proof and vectors, in turn.
std::shared_ptr<const Paper> mixed(const std::string& id, const std::string& subject = "pure") {
    const std::vector<std::string> topics{"logs", "surds", "proof", "vectors"};
    std::vector<Part> parts;
    for (int i = 0; i < 8; ++i)
        parts.push_back(
            {std::to_string(i + 1), Marks(5), topics[static_cast<std::size_t>(i) % topics.size()], ""});
    return std::make_shared<const Paper>(PaperHead{id, "", subject, {}, RetryBy::question}, parts);
}

/// Sat such papers, a week apart.
Candidate sat_mixed(const std::vector<std::string>& lines) {
    Candidate candidate;
    candidate.code = "K07";
    for (const std::string& line : lines) {
        const int id = static_cast<int>(candidate.sittings.size()) + 1;
        candidate.sittings.push_back(test::sat(id, mixed("p" + std::to_string(id)), 7 * (id - 1), line));
    }
    return candidate;
}

std::string weak(const std::vector<std::string>& lines) {
    return names(weak_topics(sat_mixed(lines)));
}

std::vector<TopicToRelearn> planned(const Candidate& candidate, Day today) {
    std::vector<TopicToRelearn> planned;
    for (const WorkItem& item : timetable(candidate, {}, today).items)
        if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
            planned.push_back(*topic);
    return planned;
}

} // namespace

TEST_CASE("one part that went for method makes no topic weak") {
    CHECK(weak({"0:method 5 5 4 5 5 4 5"}).empty());
    CHECK(weak({"0:method 4 4 5 5 4 5 4", "5 4 5 4 5 5 4 4"}).empty());
    CHECK(planned(sat_mixed({"0:method 5 5 4 5 5 4 5"}), day(1)).empty());
}

TEST_CASE("a topic is weak of which two parts or more went for method") {
    CHECK(weak({"0:method 5 5 4 0:method 5 4 5", "1:method 4 5 5 0:method 5 5 4"}) == "logs");
    CHECK(weak({"0:slip 5 5 4 0:slip 5 4 5", "1:slip 4 5 5 0:slip 5 5 4"}).empty());
    CHECK(weak({"0 5 5 4 0 5 4 5", "1 4 5 5 0 5 5 4"}).empty()); // no reason was stated
    CHECK(weak({"4:method 5 5 5 5 5 5 5", "5 5 5 5 4:method 5 5 5"}).empty());
}

TEST_CASE("weak topics come by what they cost, the costliest first") {
    const Candidate candidate = sat_mixed(
        {"0:method 2:method 4 5 0:method 2:method 5 4", "0:method 1:method 5 4 0:method 2:method 4 5"});
    const auto topics = weak_topics(candidate);
    CHECK(names(topics) == "logs surds");
    REQUIRE(topics.size() == 2);
    CHECK(topics[0].subject == "pure");
    CHECK(topics[0].marks_a_paper > topics[1].marks_a_paper);
    CHECK(topics[0].marks_a_paper < 10); // what a paper has on it
    std::vector<std::string> order;
    for (const TopicToRelearn& one : planned(candidate, day(8)))
        if (order.empty() || order.back() != one.topic)
            order.push_back(one.topic);
    CHECK(order.size() == 2);
}

TEST_CASE("a retry got since makes a weak topic no stronger, and nothing is left to relearn it for") {
    Candidate candidate = sat_mixed({"0:method 5 5 4 0:method 5 4 5", "1:method 4 5 5 0:method 5 5 4"});
    CHECK(planned(candidate, day(8)).size() == 2);
    candidate.sittings[0].reattempts = {{"1", 1, day(15), {full_marks(Marks(5))}, {}},
                                        {"5", 1, day(16), {full_marks(Marks(5))}, {}}};
    candidate.sittings[1].reattempts = {{"1", 1, day(22), {full_marks(Marks(5))}, {}},
                                        {"5", 1, day(23), {full_marks(Marks(5))}, {}}};
    CHECK(names(weak_topics(candidate)) == "logs");
    CHECK(planned(candidate, day(24)).empty());
}

TEST_CASE("a question that was sat before in a copy makes no topic weak") {
    Candidate candidate = sat_mixed({"0:method 5 5 4 5 5 4 5"});
    for (int i = 0; i < 3; ++i) {
        const auto paper = std::make_shared<const Paper>(
            PaperHead{"drawn-" + std::to_string(i), "", "pure", {}, RetryBy::question},
            std::vector<Part>{{"1", Marks(5), "logs", ""}});
        candidate.sittings.push_back(test::sat(2 + i, paper, 3 + i, "0:method"));
    }
    CHECK(names(weak_topics(candidate)) == "logs");
    CHECK(weak_topics(candidate, {{{"p1", "1"}, {"drawn-0", "1"}, {"drawn-1", "1"}, {"drawn-2", "1"}}})
              .empty());
}

TEST_CASE("topics of each subject are weak by that subject's papers alone") {
    Candidate candidate = sat_mixed({"0:method 5 5 4 0:method 5 4 5", "1:method 4 5 5 0:method 5 5 4"});
    candidate.sittings.push_back(test::sat(3, mixed("m1", "mechanics"), 9, "5 5 0:method 4 5 5 0:method 5"));
    candidate.sittings.push_back(test::sat(4, mixed("m2", "mechanics"), 10, "5 4 0:method 4 5 5 1:method 5"));
    const auto topics = weak_topics(candidate);
    REQUIRE(topics.size() == 2);
    for (const WeakTopic& one : topics)
        CHECK(one.topic == (one.subject == "pure" ? "logs" : "proof"));
}

TEST_CASE("nobody's topics are weak") {
    CHECK(weak_topics(Candidate{}).empty());
}

TEST_CASE("a topic that a day was asked for is relearned that day though it is not weak") {
    Candidate candidate = sat_mixed({"0:method 5 5 4 5 5 4 5"});
    REQUIRE(weak_topics(candidate).empty());
    const auto retries = retries_to_place(candidate, day(1));
    CHECK(topics_to_relearn(candidate, {}, retries, day(1)).empty());
    CHECK(topics_that_may_be_relearned(candidate, retries, day(1)).size() == 2);
    candidate.steered_work.push_back({WorkPurpose::relearn, "pure", "logs", {day(5), std::nullopt}});
    CHECK(topics_to_relearn(candidate, {}, retries, day(1)).size() == 2);
    const auto asked_for = planned(candidate, day(1));
    CHECK(asked_for.size() == 2);
    for (const WorkItem& item : timetable(candidate, {}, day(1)).items)
        if (item.kind() == WorkKind::relearn)
            CHECK(item.day == day(5));
}

TEST_CASE("topics to relearn come in the order of the weak ones, then those that a day was asked for") {
    Candidate candidate;
    sit(candidate, paper("pure-1", "pure"), day(0), 0);
    const auto retries = retries_to_place(candidate, day(1));
    const auto order = [&](const std::vector<WeakTopic>& weak) {
        std::string text;
        for (const TopicToRelearn& one : topics_to_relearn(candidate, weak, retries, day(1)))
            text += one.topic + std::to_string(one.piece) + " ";
        return text;
    };
    CHECK(order({{"pure", "vectors", 5}, {"pure", "integration", 2}}) ==
          "vectors1 vectors2 integration1 integration2 ");
    CHECK(order({{"pure", "logs", 5}, {"mechanics", "vectors", 5}}).empty()); // no retry lost marks on it
    candidate.steered_work = {{WorkPurpose::relearn, "pure", "integration", {day(5), std::nullopt}}};
    CHECK(order({{"pure", "vectors", 5}}) == "vectors1 vectors2 integration1 integration2 ");
    CHECK(order({{"pure", "vectors", 5}, {"pure", "integration", 2}}) ==
          "vectors1 vectors2 integration1 integration2 ");
    candidate.steered_work = {
        {WorkPurpose::relearn, "pure", "vectors", {std::nullopt, LetGo{day(1), "known"}}}};
    CHECK(order({{"pure", "vectors", 5}}).empty());
}

TEST_CASE("a request keeps the weak topics that it was given, and else takes the candidate's") {
    const Candidate candidate = sat_mixed({"0:method 5 5 4 0:method 5 4 5", "1:method 4 5 5 0:method 5 5 4"});
    CHECK(names(*with_weak_topics({}, candidate).weak) == "logs");
    TimetableRequest given;
    given.weak = std::make_shared<const std::vector<WeakTopic>>();
    CHECK(with_weak_topics(given, candidate).weak == given.weak);
    CHECK(planned(candidate, day(8)).size() == 2);
    for (const WorkItem& item : timetable(candidate, given, day(8)).items)
        CHECK(item.kind() != WorkKind::relearn);
}

TEST_CASE("a topic is relearned from today up to the day before the last one for the first of its retries") {
    Candidate candidate;
    sit(candidate, paper("pure-1", "pure"), day(0), 4); // question 5, integration: days 14 to 21
    sit(candidate, paper("pure-2", "pure"), day(4), 2); // 3 and 5 integration, 4 vectors: days 18 to 25
    std::vector<Retry> retries = retries_to_place(candidate, day(5));
    REQUIRE(retries.size() == 4);
    const std::string expected =
        "integration 1: 30 to 20; integration 2: 30 to 20; vectors 1: 10 to 24; vectors 2: 10 to 24; ";
    CHECK(text_of(topics_that_may_be_relearned(candidate, retries, day(5))) == expected);
    std::reverse(retries.begin(), retries.end());
    CHECK(text_of(topics_that_may_be_relearned(candidate, retries, day(5))) == expected);
    for (const TopicToRelearn& one : topics_that_may_be_relearned(candidate, retries, day(5)))
        CHECK(one.possible_days.first == day(5));
    candidate.placements = {{candidate.sittings[0].id, "5", day(16)}}; // it has its day: before that
    CHECK(topics_that_may_be_relearned(candidate, retries_to_place(candidate, day(5)), day(5))
              .front()
              .possible_days.last == day(15));
    CHECK(topics_that_may_be_relearned(candidate, retries_to_place(candidate, day(16)), day(16))
              .front()
              .possible_days.last == day(16));
}

TEST_CASE("a late retry waits for its topic by a week at most") {
    Candidate candidate;
    sit(candidate, paper("pure-1", "pure"), day(0), 4);
    CHECK(text_of(topics_that_may_be_relearned(candidate, retries_to_place(candidate, day(30)), day(30))) ==
          "integration 1: 10 to 36; integration 2: 10 to 36; ");
}

TEST_CASE("what was relearned since the latest marks went is off the list") {
    Candidate candidate;
    sit(candidate, paper("pure-1", "pure"), day(0), 4);
    sit(candidate, paper("pure-2", "pure"), day(4), 4);
    const auto pieces = [&](int on, bool half, const std::string& subject = "pure",
                            const std::string& topic = "integration") {
        candidate.relearned = {{subject, topic, day(on), half}};
        return topics_that_may_be_relearned(candidate, open_retries(candidate, day(6)), day(6)).size();
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
    CHECK(topics_that_may_be_relearned(candidate, retries, day(1)).size() == 2);
    retries[0].possible_days.reset();
    CHECK(topics_that_may_be_relearned(candidate, retries, day(1)).empty());
    retries = open_retries(candidate, day(1));
    retries[0].window.reset();
    CHECK(topics_that_may_be_relearned(candidate, retries, day(1)).empty());
}
