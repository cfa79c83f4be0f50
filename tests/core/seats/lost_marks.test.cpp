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

TopicLosses lost(int marks, int tenths) {
    return {Marks(marks), SeatWeight(tenths)};
}

LostMarks example() {
    return lost_marks({{"K02", {{"vectors", lost(3, 12)}, {"surds", lost(1, 0)}}},
                       {"K01", {{"series", lost(4, 31)}}},
                       {"K03", {{"surds", lost(2, 20)}, {"series", lost(5, 7)}}},
                       {"K04", {}}});
}

TopicDiagnosis topic(Advice advice, int to_win_back, Seconds work) {
    TopicDiagnosis topic{};
    topic.topic = "x";
    topic.marks = Marks(100);
    topic.in_time = Marks(100 - to_win_back);
    topic.advice = advice;
    topic.work = work;
    return topic;
}

int tenths(Advice advice, int to_win_back, int work) {
    return tenths_in_an_hour(topic(advice, to_win_back, Seconds(work))).count();
}

/// One candidate's topics, from parts of 10 marks each.
std::map<std::string, TopicLosses> lost_in(const std::vector<std::string>& topics, const std::string& line) {
    std::vector<Part> parts;
    for (const std::string& topic : topics)
        parts.push_back({std::to_string(parts.size() + 1), Marks(10), topic, ""});
    const auto paper = std::make_shared<const Paper>(PaperHead{"p", "", "", {}, RetryBy::question}, parts);
    return losses_by_topic(diagnose({{LatestMarks{paper, parse_line(*paper, line), {}}}}));
}

int weight(const SeatLosses& lost, SeatMeasure measure) {
    return measure == SeatMeasure::hour ? lost.tenths_in_an_hour.count() : lost.marks.count();
}

SeatPlan random_plan(std::mt19937& dice, std::size_t candidates, std::size_t topics) {
    SeatPlan plan;
    for (int i = 0; i < 3; ++i) {
        SeatPlan::RevisionClass one;
        for (std::size_t topic = 0; topic < topics; ++topic)
            if (dice() % 2 == 0)
                one.topics.push_back(topic);
        for (std::size_t candidate = 0; candidate < candidates; ++candidate)
            if (dice() % 2 == 0)
                one.seats.push_back({candidate, SeatWeight(1)});
        plan.classes.push_back(one);
    }
    return plan;
}

} // namespace

TEST_CASE("lost marks are a row a candidate over all topics that anybody met") {
    const LostMarks lost = example();
    CHECK(lost.candidates == std::vector<std::string>{"K02", "K01", "K03", "K04"});
    CHECK(lost.topics == std::vector<std::string>{"series", "surds", "vectors"});
    CHECK(numbers(lost.marks) == Numbers{{0, 1, 3}, {4, 0, 0}, {5, 2, 0}, {0, 0, 0}});
    CHECK(numbers(lost.tenths_in_an_hour) == Numbers{{0, 0, 12}, {31, 0, 0}, {7, 20, 0}, {0, 0, 0}});
}

TEST_CASE("seats are weighed by what an hour wins back, or by the marks lost") {
    const LostMarks lost = example();
    CHECK(numbers(lost.rows_by(SeatMeasure::hour)) == numbers(lost.tenths_in_an_hour));
    CHECK(numbers(lost.rows_by(SeatMeasure::marks)) == numbers(lost.marks));
    CHECK(seat_measure_named("hour") == SeatMeasure::hour);
    CHECK(seat_measure_named("marks") == SeatMeasure::marks);
    CHECK_FALSE(seat_measure_named("Hour"));
}

TEST_CASE("where wishes are given only what was asked for counts") {
    LostMarks lost = example();
    keep_wishes(lost, {{"K02", "vectors"}, {"K03", ""}, {"K03", "surds"}, {"K09", "surds"}});
    CHECK(numbers(lost.marks) == Numbers{{0, 0, 3}, {0, 0, 0}, {5, 2, 0}, {0, 0, 0}});
    CHECK(numbers(lost.tenths_in_an_hour) == Numbers{{0, 0, 12}, {0, 0, 0}, {7, 20, 0}, {0, 0, 0}});
}

TEST_CASE("of nobody nothing is lost") {
    LostMarks lost = lost_marks({});
    keep_wishes(lost, {});
    CHECK(lost.topics.empty());
    CHECK(lost.marks.empty());
}

TEST_CASE("an hour wins back its share of the work, in tenths of a mark, a half rounded up") {
    CHECK(tenths(Advice::relearn, 10, 7200) == 50);
    CHECK(tenths(Advice::recall, 7, 5000) == 50); // 50.4
    CHECK(tenths(Advice::care, 1, 4800) == 8);    // 7.5
    CHECK(tenths(Advice::pace, 1, 4801) == 7);    // 7.498
    CHECK(tenths(Advice::too_little, 20, 36'000) == 20);
}

TEST_CASE("an hour wins back no more than there is") {
    CHECK(tenths(Advice::care, 3, 1800) == 30);
    CHECK(tenths(Advice::pace, 3, 3600) == 30);
    CHECK(tenths(Advice::pace, 3, 3700) == 29);
}

TEST_CASE("nothing is won back on a topic that is firm, without work, or without a name") {
    CHECK(tenths(Advice::firm, 3, 1800) == 0);
    CHECK(tenths(Advice::care, 0, 0) == 0);
    TopicDiagnosis nameless = topic(Advice::care, 3, Seconds(1800));
    nameless.advice.reset();
    CHECK(tenths_in_an_hour(nameless).count() == 0);
}

TEST_CASE("what a candidate lost is own marks short of the maximum, what an hour wins back overtime too") {
    const auto lost = lost_in({"x", "x", "x", "y", "z", "z", ""}, "4:slip 5+1:slip 9:slip 0+10 10 10 0");
    REQUIRE(lost.size() == 3);
    CHECK(lost.at("x").marks == Marks(11));
    // 12 to win back, and to work three parts of 12 minutes again takes 54: all of it.
    CHECK(lost.at("x").tenths_in_an_hour == SeatWeight(120));
    // A single part decides nothing: an hour to learn and 18 minutes.
    CHECK(lost.at("y").marks == Marks(0));
    CHECK(lost.at("y").tenths_in_an_hour == SeatWeight(77)); // 100 · 60/78 = 76.9
    CHECK(lost.at("z").marks == Marks(0));
    CHECK(lost.at("z").tenths_in_an_hour == SeatWeight(0));
}

TEST_CASE("a topic of a candidate's two classes counts in the earlier one") {
    SeatPlan plan;
    plan.classes = {
        {{0, 1}, {{2, SeatWeight(7)}}}, {{0, 2}, {{0, SeatWeight(12)}, {2, SeatWeight(0)}}}, {{}, {}}};
    const auto seats = losses_by_seat(plan, example());
    REQUIRE(seats.size() == 3);
    REQUIRE(seats[0].size() == 1);
    REQUIRE(seats[1].size() == 2);
    CHECK(seats[0][0].marks == Marks(7));
    CHECK(seats[0][0].tenths_in_an_hour == SeatWeight(27));
    CHECK(seats[1][0].marks == Marks(3));
    CHECK(seats[1][1].marks == Marks(0));
    CHECK(seats[2].empty());
    CHECK(total_losses(seats).marks == Marks(10));
    CHECK(total_losses(seats).tenths_in_an_hour == SeatWeight(39));
}

TEST_CASE("left out are those without a seat who weigh something") {
    SeatPlan plan;
    plan.classes = {{{0}, {{1, SeatWeight(4)}}}};
    LostMarks lost = example();
    CHECK(left_out_of(plan, lost, SeatMeasure::hour) == std::vector<std::string>{"K02", "K03"});
    lost.tenths_in_an_hour[0][2] = SeatWeight(0);
    CHECK(left_out_of(plan, lost, SeatMeasure::hour) == std::vector<std::string>{"K03"});
    CHECK(left_out_of(plan, lost, SeatMeasure::marks) == std::vector<std::string>{"K02", "K03"});
}

TEST_CASE("all seats together hold each candidate's topics once") {
    std::mt19937 dice(11);
    for (int run = 0; run < 200; ++run) {
        LostMarks lost{{}, {"a", "b", "c", "d"}, {}, {}};
        for (int i = 0; i < 6; ++i) {
            lost.candidates.push_back("K" + std::to_string(i));
            lost.marks.emplace_back();
            lost.tenths_in_an_hour.emplace_back();
            for (int topic = 0; topic < 4; ++topic) {
                lost.marks.back().push_back(Marks(static_cast<int>(dice() % 9)));
                lost.tenths_in_an_hour.back().push_back(SeatWeight(static_cast<int>(dice() % 90)));
            }
        }
        const SeatPlan plan = random_plan(dice, 6, 4);
        SeatLosses once;
        for (std::size_t candidate = 0; candidate < 6; ++candidate) {
            std::set<std::size_t> topics;
            for (const auto& one : plan.classes)
                for (const auto& seat : one.seats)
                    if (seat.candidate == candidate)
                        topics.insert(one.topics.begin(), one.topics.end());
            for (const std::size_t topic : topics) {
                once.marks += lost.marks[candidate][topic];
                once.tenths_in_an_hour += lost.tenths_in_an_hour[candidate][topic];
            }
        }
        const SeatLosses all = total_losses(losses_by_seat(plan, lost));
        REQUIRE(all.marks == once.marks);
        REQUIRE(all.tenths_in_an_hour == once.tenths_in_an_hour);
    }
}

TEST_CASE("what the seats of a plan weigh is what the plan counted") {
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
                    REQUIRE(weight(seats[i][j], measure) == plan.classes[i].seats[j].weight.count());
        }
    }
}
