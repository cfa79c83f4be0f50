#include "inkturn/seats/lost_marks.hpp"

#include "catch.hpp"

#include <cmath>
#include <map>
#include <memory>
#include <random>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

using Numbers = std::vector<std::vector<int>>;

template <typename Rows>
Numbers numbers(const Rows& rows) {
    Numbers all;
    for (const auto& row : rows) {
        all.emplace_back();
        for (const auto lost : row)
            all.back().push_back(lost.count());
    }
    return all;
}

TopicLosses lost(int marks, int hundredths) {
    return {Marks(marks), SeatWeight(hundredths)};
}

LostMarks example() {
    return lost_marks({{"K02", {{"vectors", lost(3, 12)}, {"surds", lost(1, 0)}}},
                       {"K01", {{"series", lost(4, 31)}}},
                       {"K03", {{"surds", lost(2, 20)}, {"series", lost(5, 7)}}},
                       {"K04", {}}});
}

/// That an hour wins so much on in a paper.
void give_outlook(TopicDiagnosis& topic, double won_back) {
    add_outlook(topic, {0.5, {0.4, 0.6}, 0.9, 5 * won_back, won_back});
}

int hundredths(double won_back) {
    TopicDiagnosis topic{};
    topic.topic = "x";
    topic.marks = Marks(100);
    give_outlook(topic, won_back);
    return won_in_an_hour(topic).count();
}

/// One candidate's topics, from parts of 10 marks each.
std::map<std::string, TopicLosses> lost_in(const std::vector<std::string>& topics, const std::string& line) {
    std::vector<Part> parts;
    for (const std::string& topic : topics)
        parts.push_back({std::to_string(parts.size() + 1), Marks(10), topic, ""});
    const auto paper = std::make_shared<const Paper>(PaperHead{"p", "", "", {}, RetryBy::question}, parts);
    std::vector<TopicDiagnosis> diagnosed = diagnose({{PaperMarks{paper, parse_line(*paper, line), {}}}});
    for (TopicDiagnosis& topic : diagnosed)
        if (topic.topic != "z")
            give_outlook(topic, topic.topic == "x" ? 1.25 : 0.5);
    return losses_by_topic(diagnosed);
}

int weight(const SeatLosses& lost, SeatMeasure measure) {
    return measure == SeatMeasure::hour ? lost.won_in_an_hour.count() : lost.marks.count();
}

SeatPlan random_plan(std::mt19937& dice, std::size_t candidates, std::size_t topics) {
    SeatPlan plan;
    for (int i = 0; i < 3; ++i) {
        SeatPlan::SeatedLesson one;
        for (std::size_t topic = 0; topic < topics; ++topic)
            if (dice() % 2 == 0)
                one.topics.push_back(topic);
        for (std::size_t candidate = 0; candidate < candidates; ++candidate)
            if (dice() % 2 == 0)
                one.seats.push_back({candidate, SeatWeight(1)});
        plan.lessons.push_back(one);
    }
    return plan;
}

} // namespace

TEST_CASE("lost marks have one row per candidate, over all topics that anybody met") {
    const LostMarks lost = example();
    CHECK(lost.candidates == std::vector<std::string>{"K02", "K01", "K03", "K04"});
    CHECK(lost.topics == std::vector<std::string>{"series", "surds", "vectors"});
    CHECK(numbers(lost.marks) == Numbers{{0, 1, 3}, {4, 0, 0}, {5, 2, 0}, {0, 0, 0}});
    CHECK(numbers(lost.won_in_an_hour) == Numbers{{0, 0, 12}, {31, 0, 0}, {7, 20, 0}, {0, 0, 0}});
}

TEST_CASE("seats are weighed by what an hour wins back, or by the marks lost") {
    const LostMarks lost = example();
    CHECK(numbers(lost.rows_by(SeatMeasure::hour)) == numbers(lost.won_in_an_hour));
    CHECK(numbers(lost.rows_by(SeatMeasure::marks)) == numbers(lost.marks));
    CHECK(seat_measure_named("hour") == SeatMeasure::hour);
    CHECK(seat_measure_named("marks") == SeatMeasure::marks);
    CHECK_FALSE(seat_measure_named("Hour"));
}

TEST_CASE("where wishes are given only what was asked for counts") {
    LostMarks lost = example();
    keep_wishes(lost, {{"K02", {"vectors"}}, {"K03"}, {"K09", {"surds"}}});
    CHECK(numbers(lost.marks) == Numbers{{0, 0, 3}, {0, 0, 0}, {5, 2, 0}, {0, 0, 0}});
    CHECK(numbers(lost.won_in_an_hour) == Numbers{{0, 0, 12}, {0, 0, 0}, {7, 20, 0}, {0, 0, 0}});
}

TEST_CASE("of nobody nothing is lost") {
    LostMarks lost = lost_marks({});
    keep_wishes(lost, {});
    CHECK(lost.topics.empty());
    CHECK(lost.marks.empty());
}

TEST_CASE("what an hour wins back in a paper is weighed in hundredths of a mark, a half rounded up") {
    CHECK(hundredths(1.25) == 125);
    CHECK(hundredths(0.004) == 0);
    CHECK(hundredths(0.005) == 1);
    CHECK(hundredths(0.0149) == 1);
    CHECK(hundredths(12) == 1200);
    CHECK(hundredths(0) == 0);
}

TEST_CASE("nothing is won back on a topic without an outlook") {
    TopicDiagnosis unknown{};
    unknown.topic = "x";
    unknown.marks = Marks(100);
    CHECK(won_in_an_hour(unknown).count() == 0);
}

TEST_CASE("what a candidate lost is unaided marks short of the maximum, what an hour wins is foreseen") {
    const auto lost = lost_in({"x", "x", "x", "y", "z", "z", ""}, "4:slip 5+1:slip 9:slip 0+10 10 8 0");
    REQUIRE(lost.size() == 3);
    CHECK(lost.at("x").marks == Marks(11));
    CHECK(lost.at("x").won_in_an_hour == SeatWeight(125));
    CHECK(lost.at("y").marks == Marks(0));
    CHECK(lost.at("y").won_in_an_hour == SeatWeight(50));
    CHECK(lost.at("z").marks == Marks(2));
    CHECK(lost.at("z").won_in_an_hour == SeatWeight(0));
}

TEST_CASE("a topic of the same name in two subjects is one for a lesson") {
    std::vector<TopicDiagnosis> both(2);
    for (TopicDiagnosis& topic : both) {
        topic.topic = "vectors";
        topic.marks = Marks(10);
        topic.lost.unstated = Marks(4);
        give_outlook(topic, 0.5);
    }
    both[1].subject = "mechanics";
    const auto lost = losses_by_topic(both);
    REQUIRE(lost.size() == 1);
    CHECK(lost.at("vectors").marks == Marks(8));
    CHECK(lost.at("vectors").won_in_an_hour == SeatWeight(100));
}

TEST_CASE("a topic of a candidate's two lessons counts in the earlier one") {
    SeatPlan plan;
    plan.lessons = {
        {{0, 1}, {{2, SeatWeight(7)}}}, {{0, 2}, {{0, SeatWeight(12)}, {2, SeatWeight(0)}}}, {{}, {}}};
    const auto seats = losses_by_seat(plan, example());
    REQUIRE(seats.size() == 3);
    REQUIRE(seats[0].size() == 1);
    REQUIRE(seats[1].size() == 2);
    CHECK(seats[0][0].marks == Marks(7));
    CHECK(seats[0][0].won_in_an_hour == SeatWeight(27));
    CHECK(seats[1][0].marks == Marks(3));
    CHECK(seats[1][1].marks == Marks(0));
    CHECK(seats[2].empty());
    CHECK(total_losses(seats).marks == Marks(10));
    CHECK(total_losses(seats).won_in_an_hour == SeatWeight(39));
}

namespace {

/// `K01 full_marks`, in the order of the candidates.
std::vector<std::string> reasons(const SeatPlan& plan, const SeatsBasis& basis) {
    std::vector<std::string> texts;
    for (const WithoutSeat& one : without_seat(plan, basis))
        texts.push_back(one.candidate + " " + std::string(name(one.why)));
    return texts;
}

} // namespace

TEST_CASE("everybody has a seat or a reason why not") {
    const LostMarks lost = lost_marks({{"K01", {{"series", ::lost(4, 31)}}},
                                       {"K02", {{"vectors", ::lost(3, 12)}}},
                                       {"K03", {{"series", ::lost(5, 7)}}},
                                       {"K04", {}},
                                       {"K05", {{"series", ::lost(0, 0)}}},
                                       {"K06", {{"series", ::lost(2, 0)}}},
                                       {"K07", {{"series", ::lost(2, 3)}}}});
    SeatPlan plan;
    plan.lessons = {{{0}, {{0, SeatWeight(31)}}}};
    const SeatsRequest request{1, 1};
    std::vector<SeatTerms> terms(7);
    terms[6].never = true;
    std::optional<std::vector<Wish>> wishes;
    CHECK(reasons(plan, {lost, SeatMeasure::hour, request, terms, wishes}) ==
          std::vector<std::string>{"K02 other_topics", "K03 no_room", "K04 no_marks", "K05 full_marks",
                                   "K06 firm", "K07 never"});
    CHECK(reasons(plan, {lost, SeatMeasure::marks, request, {}, wishes}) ==
          std::vector<std::string>{"K02 other_topics", "K03 no_room", "K04 no_marks", "K05 full_marks",
                                   "K06 no_room", "K07 no_room"});
    wishes = std::vector<Wish>{{"K01"}, {"K02", {"series"}}, {"K03", {"series"}}};
    CHECK(reasons(plan, {lost, SeatMeasure::hour, request, terms, wishes}) ==
          std::vector<std::string>{"K02 no_marks", "K03 no_room", "K04 not_asked", "K05 not_asked",
                                   "K06 not_asked", "K07 never"});
    const SeatsBasis with_marks{lost, SeatMeasure::hour, request, terms, wishes, {"K02"}};
    CHECK(reasons(plan, with_marks).front() == "K02 no_part"); // marks, but on vectors alone
}

TEST_CASE("who can come on none of the dates, or on none with the topic, is told so") {
    const Day saturday = date::year{2026} / 12 / 5;
    const LostMarks lost =
        lost_marks({{"K01", {{"series", ::lost(4, 31)}}}, {"K02", {{"series", ::lost(4, 31)}}}});
    SeatPlan plan;
    plan.lessons = {{{0}, {{0, SeatWeight(31)}}, saturday}, {{}, {}, saturday + Days{3}}};
    const SeatsRequest request{2, 1, 1, 1, {saturday, saturday + Days{3}}};
    const std::optional<std::vector<Wish>> everybody;
    const auto why = [&](Day can_come) {
        return reasons(plan, {lost, SeatMeasure::hour, request, {{}, {false, false, {can_come}}}, everybody});
    };
    CHECK(why(saturday + Days{1}) == std::vector<std::string>{"K02 other_dates"});
    CHECK(why(saturday + Days{3}) == std::vector<std::string>{"K02 other_topics"});
    CHECK(why(saturday) == std::vector<std::string>{"K02 no_room"});
}

TEST_CASE("all seats together hold each candidate's topics once") {
    std::mt19937 dice(11);
    for (int run = 0; run < 200; ++run) {
        LostMarks lost{{}, {"a", "b", "c", "d"}, {}, {}, {}};
        for (int i = 0; i < 6; ++i) {
            lost.candidates.push_back("K" + std::to_string(i));
            lost.marks.emplace_back();
            lost.won_in_an_hour.emplace_back();
            for (int topic = 0; topic < 4; ++topic) {
                lost.marks.back().push_back(Marks(static_cast<int>(dice() % 9)));
                lost.won_in_an_hour.back().push_back(SeatWeight(static_cast<int>(dice() % 90)));
            }
        }
        const SeatPlan plan = random_plan(dice, 6, 4);
        SeatLosses once;
        for (std::size_t candidate = 0; candidate < 6; ++candidate) {
            std::set<std::size_t> topics;
            for (const auto& one : plan.lessons)
                for (const auto& seat : one.seats)
                    if (seat.candidate == candidate)
                        topics.insert(one.topics.begin(), one.topics.end());
            for (const std::size_t topic : topics) {
                once.marks += lost.marks[candidate][topic];
                once.won_in_an_hour += lost.won_in_an_hour[candidate][topic];
            }
        }
        const SeatLosses all = total_losses(losses_by_seat(plan, lost));
        REQUIRE(all.marks == once.marks);
        REQUIRE(all.won_in_an_hour == once.won_in_an_hour);
    }
}

TEST_CASE("the weights of a plan's seats add up to what the plan counted") {
    std::mt19937 dice(12);
    for (int run = 0; run < 20; ++run) {
        std::vector<CandidateLosses> candidates;
        for (int i = 0; i < 7; ++i) {
            candidates.push_back({"K" + std::to_string(i), {}});
            for (const char* topic : {"a", "b", "c", "d"})
                candidates.back().by_topic[topic] =
                    lost(static_cast<int>(dice() % 9), static_cast<int>(dice() % 3 * (dice() % 50)));
        }
        const LostMarks lost = lost_marks(candidates);
        for (const SeatMeasure measure : {SeatMeasure::hour, SeatMeasure::marks}) {
            const SeatPlan plan = plan_seats({2, 3, 2, 2}, lost.rows_by(measure));
            const auto seats = losses_by_seat(plan, lost);
            const SeatLosses all = total_losses(seats);
            REQUIRE(weight(all, measure) == plan.weight.count());
            for (std::size_t i = 0; i < seats.size(); ++i)
                for (std::size_t j = 0; j < seats[i].size(); ++j)
                    REQUIRE(weight(seats[i][j], measure) == plan.lessons[i].seats[j].weight.count());
        }
    }
}
