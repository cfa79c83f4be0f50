#include "exchange/json/class.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "exchange/json/parsed.hpp"
#include "exchange/json/seats.hpp"
#include "exchange/json/standing.hpp"
#include "exchange/json/topics.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

std::vector<Candidate> candidates() {
    const auto paper = std::make_shared<const Paper>(
        PaperHead{"p1", "", "pure", {}, RetryBy::question},
        std::vector<Part>{{"1", Marks(10), "surds", ""}, {"2", Marks(10), "", ""}});
    std::vector<Candidate> all(6);
    const std::vector<std::string> marks{"8 2+4", "5 5", "3 5", "6 4", "4 6"};
    for (std::size_t i = 0; i < 6; ++i) {
        all[i].code = "K0" + std::to_string(i + 1);
        if (i < 5)
            all[i].sittings = {{SittingId{1}, paper, {monday, {}, parse_line(*paper, marks[i])}, {}}};
    }
    return all;
}

LostMarks lost() {
    return lost_marks(
        {{"K01", {{"surds", {Marks(3), SeatWeight(12)}}, {"vectors", {Marks(2), SeatWeight(25)}}}},
         {"K02", {{"surds", {Marks(1), SeatWeight(8)}}}},
         {"K03", {{"vectors", {Marks(5), SeatWeight(0)}}}}});
}

} // namespace

TEST_CASE("a class's topics are written with whose they are") {
    const auto topics = diagnose({unseen_marks(candidates()[0]), unseen_marks(candidates()[1])});
    const Json json = parsed(json_of_class("tuesday", 2, topics, Gain(30)));
    CHECK(json["class"] == "tuesday");
    CHECK(json["candidates"] == 2);
    CHECK(json["gain_percent"] == 30);
    CHECK(json["topics"] == parsed(json_of(topics, 2, {}))["topics"]);
    CHECK(json["topics"][0]["parts"] == 2);
    CHECK(parsed(json_of_class({}, 0, {}, Gain())).dump() ==
          R"({"class":null,"candidates":0,"gain_percent":20,"topics":[]})");
}

TEST_CASE("a class's standing is written set by set, with counts, papers and who is near a boundary") {
    const BoundarySet set{"2019", "", Marks(20), {{"A", Marks(15)}, {"B", Marks(10)}}};
    CHECK(
        parsed(json_of_class("tuesday", "", 6, class_standing(candidates(), {set}))).dump() ==
        R"({"class":"tuesday","subject":null,"candidates":6,"sets":[{"set":"2019","subject":null,)"
        R"("total":20,"filled":null,"guess":false,"counted":5,"not_counted":1,"absent":1,"grades":[)"
        R"({"grade":"A","mark":15,"reached":{"in_time":0,"unaided":0},"or_better":{"in_time":0,"unaided":0}},)"
        R"({"grade":"B","mark":10,"reached":{"in_time":4,"unaided":4},"or_better":{"in_time":4,"unaided":4}}],)"
        R"("below":{"in_time":1,"unaided":1},)"
        R"("bases":[{"papers":["p1"],"candidates":5,"standard_error":2.0}],)"
        R"("grade_width":5.0,"nearly_all_near":false,)"
        R"("near":[{"candidate":"K02","unaided":10,"grade":"B","mark":10,"above":0,"standard_error":2.0},)"
        R"({"candidate":"K04","unaided":10,"grade":"B","mark":10,"above":0,"standard_error":2.0},)"
        R"({"candidate":"K05","unaided":10,"grade":"B","mark":10,"above":0,"standard_error":2.0},)"
        R"({"candidate":"K01","unaided":14,"grade":"A","mark":15,"above":-1,"standard_error":2.0},)"
        R"({"candidate":"K03","unaided":8,"grade":"B","mark":10,"above":-2,"standard_error":2.0}]}],"awards":[]})");
}

TEST_CASE("a standard error there is not is null") {
    const BoundarySet set{"2019", "pure", Marks(20), {{"A", Marks(15)}}};
    const Json json = parsed(json_of_class({}, "pure", 1, class_standing({candidates()[0]}, {set})));
    CHECK(json["subject"] == "pure");
    CHECK(json["sets"][0]["bases"][0]["standard_error"].is_null());
    CHECK(json["sets"][0]["near"].empty());
}

TEST_CASE("seats are written with the marks lost and those that an hour wins back") {
    SeatPlan plan;
    plan.lessons = {{{0, 1}, {{0, SeatWeight(37)}}}, {}};
    plan.weight = SeatWeight(37);
    plan.bound = SeatWeight(40);
    const LostMarks all = lost();
    const SeatsRequest request{2, 1};
    const std::vector<SeatTerms> terms;
    const std::optional<std::vector<Wish>> wishes;
    const Json json = parsed(json_of(plan, all, {all, SeatMeasure::hour, request, terms, wishes}));
    CHECK(json["measure"] == "hour");
    CHECK(
        json["lessons"].dump() ==
        R"([{"date":null,"topics":["surds","vectors"],)"
        R"("seats":[{"candidate":"K01","marks":5,"won_back":0.37}]},{"date":null,"topics":[],"seats":[]}])");
    CHECK(json["marks"] == 5);
    CHECK(json["won_back"] == 0.37);
    CHECK(json["bound"] == 0.4);
    CHECK(json["without_seat"].dump() ==
          R"([{"candidate":"K02","why":"no_room"},{"candidate":"K03","why":"firm"}])");
    plan.lessons[0].date = monday;
    const Json by_marks = parsed(json_of(plan, all, {all, SeatMeasure::marks, request, terms, wishes}));
    CHECK(by_marks["measure"] == "marks");
    CHECK(by_marks["bound"] == 40);
    CHECK(by_marks["lessons"][0]["date"] == iso(monday));
    CHECK(by_marks["without_seat"][1]["why"] == "no_room");
}

TEST_CASE("what the next paper may bring is written with both ranges, and as null where it can't be told") {
    const BoundarySet set{"2019", "pure", Marks(20), {{"A", Marks(15)}}};
    Candidate candidate = candidates()[0];
    const NextPaper half = [](const std::string&) { return std::optional(UncertainShare({{1, 0.5, 0.05}})); };
    const auto foreseen = [&] {
        return parsed(json_of(standing_in("pure", candidate, {set}, half), {}, {}));
    };
    CHECK(foreseen()["foreseen"].is_null());
    CHECK(foreseen()["sets"][0]["foreseen"].is_null());
    for (int i = 2; i <= 3; ++i) {
        const auto next = std::make_shared<const Paper>(
            PaperHead{"p" + std::to_string(i), "", "pure", {}, RetryBy::question},
            std::vector<Part>{{"1", Marks(20), "", ""}});
        candidate.sittings.push_back(
            {SittingId{i}, next, {monday + Days{i}, {}, parse_line(*next, "9")}, {}});
    }
    const std::string expected =
        R"({"total":20,"in_time":10,"low_50":9,"high_50":11,"low_90":8,"high_90":12})";
    CHECK(foreseen()["foreseen"].dump() == expected);
    CHECK(foreseen()["sets"][0]["foreseen"].dump() == expected);
}
