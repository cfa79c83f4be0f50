#include "exchange/json/topics.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "exchange/json/parsed.hpp"
#include "exchange/json/trend.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

std::shared_ptr<const Paper> paper() {
    return std::make_shared<const Paper>(PaperHead{"p1", "", "pure", {}, RetryBy::question},
                                         std::vector<Part>{{"1", Marks(4), "surds", "M2 A2"},
                                                           {"2", Marks(4), "surds", ""},
                                                           {"3", Marks(6), "", ""}});
}

Candidate candidate() {
    const auto sat = paper();
    Candidate candidate;
    candidate.sittings = {{SittingId{7}, sat, {monday, {}, parse_line(*sat, "1:slip:1 0+2 3+0+3")}, {}}};
    candidate.sittings[0].reattempts.push_back(
        {"3", 1, monday + Days{15}, {parse_part_marks("6", Marks(6))}});
    return candidate;
}

} // namespace

TEST_CASE("topics are written with their marks, what is to be expected, losses and advice") {
    std::vector<TopicDiagnosis> topics =
        diagnose({unseen_marks(candidate())}, {reattempted_marks(candidate())});
    add_outlook(topics.at(0), {0.4125, {0.25, 0.5751}, 0.97, 4.7, 0.94});
    CHECK(
        parsed(json_of(topics, 1, {})).dump() ==
        R"({"candidates":1,"gain_percent":20,"topics":[{"topic":"surds","subject":"pure","parts":2,"marks":8,)"
        R"("in_time":1,"unaided":3,"again":null,"expected":{"share":0.413,"low":0.25,"high":0.575},)"
        R"("below":0.97,"marks_a_paper":4.7,"won_back":0.94,"advice":"care","sure":true,)"
        R"("plain":{"unaided_share":0.375,"low":0.031,"high":0.898},"overtime_share":0.6666666666666666,)"
        R"("lost":{"method":0,"recall":0,"slip":3,"misread":0,"unfinished":0,"unstated":2},)"
        R"("lost_codes":{"method":1,"accuracy":2,"accuracy_after_method":0,"independent":0,"other":0,)"
        R"("unknown":2}},)"
        R"({"topic":"","subject":"pure","parts":1,"marks":6,"in_time":3,"unaided":3,)"
        R"("again":{"marks":6,"unaided":6},"expected":null,"below":null,"marks_a_paper":null,)"
        R"("won_back":null,"advice":null,"sure":null,)"
        R"("plain":{"unaided_share":0.5,"low":0.025,"high":0.975},"overtime_share":0.0,)"
        R"("lost":{"method":0,"recall":0,"slip":0,"misread":0,"unfinished":0,"unstated":3},)"
        R"("lost_codes":{"method":0,"accuracy":0,"accuracy_after_method":0,"independent":0,"other":0,)"
        R"("unknown":3}}]})");
}

TEST_CASE("the candidates that the figures rest on and the gain assumed are written first") {
    const Json json = parsed(json_of(diagnose({}), 24, Gain(35)));
    CHECK(json["candidates"] == 24);
    CHECK(json["gain_percent"] == 35);
}

TEST_CASE("a trend is written a sitting at a time, then turn by turn") {
    CHECK(parsed(json_of(trend(candidate()))).dump() ==
          R"({"sittings":[{"sitting":7,"paper":"p1","date":"2026-11-02","again":false,"marks":14,)"
          R"("in_time_share":0.2857142857142857,"unaided_share":0.42857142857142855,)"
          R"("corrected_share":0.21428571428571427,"reach":0.7142857142857143,"seconds_per_mark":null,)"
          R"("allowed_seconds_per_mark":72.0,"overtime_seconds":null,"time_off_seconds":null}],)"
          R"("retries":[{"turn":1,"done":1,"got":1}],)"
          R"("secured_again":{"met":0,"got":0,"low":null,"high":null}})");
}

TEST_CASE("a sitting against a clock is written with what a mark took") {
    Candidate timed = candidate();
    const Moment nine{monday + std::chrono::hours{9}};
    timed.sittings[0].sitting.clock = {{ClockEventKind::start, nine, 0},
                                       {ClockEventKind::go, nine + Seconds(500), 1},
                                       {ClockEventKind::hand_in, nine + Seconds(1100), 0}};
    const Json sitting = parsed(json_of(trend(timed))).at("sittings").at(0);
    CHECK(sitting.at("reach") == 8.0 / 14);
    CHECK(sitting.at("seconds_per_mark") == 126.0);
    CHECK(sitting.at("overtime_seconds") == 1100 - 14 * 72);
}

TEST_CASE("nothing sat is written as empty lists") {
    CHECK(parsed(json_of(diagnose({}), 0, {})).dump() == R"({"candidates":0,"gain_percent":20,"topics":[]})");
    CHECK(parsed(json_of(trend({}))).dump() ==
          R"({"sittings":[],"retries":[],"secured_again":{"met":0,"got":0,"low":null,"high":null}})");
}

TEST_CASE("a document is indented by two, without a line break at its end") {
    CHECK(json_of(diagnose({}), 0, {}) ==
          "{\n  \"candidates\": 0,\n  \"gain_percent\": 20,\n  \"topics\": []\n}");
}
