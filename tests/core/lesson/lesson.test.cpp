#include "inkturn/lesson/lesson.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/lesson/touched.hpp"
#include "inkturn/lesson/wish.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Codes = std::vector<std::string>;

const Moment noon = monday + std::chrono::hours{12};

/// On the Saturday, for two.
Lesson example() {
    return {"vectors-1",
            monday + Days{5},
            std::chrono::hours{16},
            std::chrono::hours{1},
            "pure",
            {"series", "vectors"},
            2};
}

PlaceAsked asking(const std::string& candidate, int minutes, std::vector<std::string> topics = {}) {
    return {candidate, noon + std::chrono::minutes{minutes}, std::move(topics), "", PlaceState::asked};
}

/// Three who asked, the last one first.
Lesson asked_for() {
    Lesson lesson = example();
    for (const PlaceAsked& asked : {asking("K02", 20), asking("K03", 30, {"vectors"}), asking("K01", 10)})
        CHECK(ask_for_place(lesson, asked));
    return lesson;
}

std::string why_not(Lesson lesson) {
    try {
        check_lesson(lesson);
    } catch (const Error& error) {
        return error.what();
    }
    return "";
}

} // namespace

TEST_CASE("nobody asks for a place once the lesson is over") {
    const Lesson lesson = example();
    CHECK_NOTHROW(check_can_be_asked_for(lesson, monday));
    CHECK_NOTHROW(check_can_be_asked_for(lesson, lesson.day));
    CHECK_THROWS_AS(check_can_be_asked_for(lesson, lesson.day + Days{1}), Error);
}

TEST_CASE("a lesson has a name, a time within its day, topics in order, and places") {
    CHECK(why_not(example()).empty());
    const auto with = [](auto change) {
        Lesson lesson = example();
        change(lesson);
        return why_not(lesson);
    };
    CHECK_THAT(with([](Lesson& lesson) { lesson.id = "Vectors 1"; }), Contains("lower-case letters"));
    CHECK_THAT(with([](Lesson& lesson) { lesson.start = std::chrono::minutes{23 * 60 + 1}; }),
               Contains("begins and ends on its day"));
    CHECK(with([](Lesson& lesson) { lesson.start = std::chrono::hours{23}; }).empty());
    CHECK_THAT(with([](Lesson& lesson) { lesson.duration = Seconds(59); }), Contains("1 to 1440 minutes"));
    CHECK_THAT(with([](Lesson& lesson) { lesson.topics.clear(); }), Contains("needs a topic"));
    CHECK_THAT(with([](Lesson& lesson) { lesson.topics = {"vectors", "series"}; }), Contains("out of order"));
    CHECK_THAT(with([](Lesson& lesson) { lesson.places = 0; }), Contains("1 to 10000 places"));
    CHECK_THAT(with([](Lesson& lesson) {
                   lesson.topics = {std::string(120, 'a'), std::string(120, 'b')};
               }),
               Contains("together"));
}

TEST_CASE("those who ask stand in the order of asking") {
    const Lesson lesson = asked_for();
    CHECK(next_in_line(lesson, {}) == Codes{"K01", "K02", "K03"});
    CHECK(free_places(lesson) == 2);
}

TEST_CASE(
    "by marks those who lost most come first, those without marks last, and the first who asked if tied") {
    Lesson lesson = asked_for();
    lesson.order = PlaceOrder::marks;
    ask_for_place(lesson, asking("K04", 40));
    const LostByCandidate lost{
        {"K01", std::nullopt}, {"K02", Marks(3)}, {"K03", Marks(7)}, {"K04", Marks(3)}};
    CHECK(next_in_line(lesson, lost) == Codes{"K03", "K02", "K04", "K01"});
}

TEST_CASE("the free places are offered to the next in line, and a place that is declined to the one after") {
    Lesson lesson = asked_for();
    CHECK(offer_free_places(lesson, {}, monday) == Codes{"K01", "K02"});
    CHECK(free_places(lesson) == 0);
    CHECK(offer_free_places(lesson, {}, monday).empty());
    CHECK(settle_place(lesson, "K01", PlaceState::confirmed, monday, noon));
    CHECK_FALSE(settle_place(lesson, "K01", PlaceState::confirmed, monday, noon));
    CHECK(decline_places(lesson, {"K02"}, {}, monday, noon) == Codes{"K03"});
    CHECK(in_state(lesson, PlaceState::declined) == Codes{"K02"});
    CHECK(those_who_come(lesson) == Codes{"K01"});
}

TEST_CASE("declining a place that one never had offers nothing") {
    Lesson lesson = asked_for();
    CHECK(decline_places(lesson, {"K02"}, {}, monday, noon).empty());
    CHECK(free_places(lesson) == 2);
}

TEST_CASE("no more places are offered or confirmed than there are, and none once the lesson is over") {
    Lesson lesson = asked_for();
    offer_free_places(lesson, {}, monday);
    CHECK_THROWS_WITH(settle_place(lesson, "K03", PlaceState::confirmed, monday, noon),
                      Contains("no free place"));
    CHECK(settle_place(lesson, "K02", PlaceState::confirmed, lesson.day, noon));
    CHECK_THROWS_WITH(settle_place(lesson, "K01", PlaceState::confirmed, lesson.day + Days{1}, noon),
                      Contains("was on"));
    Lesson over = asked_for();
    CHECK(offer_free_places(over, {}, over.day + Days{1}).empty());
    CHECK_THROWS_WITH(settle_place(lesson, "K09", PlaceState::declined, monday, noon),
                      Contains("has not asked"));
    Lesson invited = example();
    CHECK(settle_place(invited, "K09", PlaceState::offered, monday, noon));
    CHECK(find_asked(invited, "K09")->at == noon);
}

TEST_CASE("who came is recorded from the day on, asked or not, and stays so") {
    Lesson lesson = asked_for();
    CHECK_THROWS_WITH(settle_place(lesson, "K01", PlaceState::attended, lesson.day - Days{1}, noon),
                      Contains("after today"));
    CHECK(settle_place(lesson, "K01", PlaceState::attended, lesson.day, noon));
    CHECK(settle_place(lesson, "K09", PlaceState::attended, lesson.day, noon + Days{5}));
    CHECK(in_state(lesson, PlaceState::attended) == Codes{"K01", "K09"});
    CHECK_THROWS_WITH(settle_place(lesson, "K01", PlaceState::declined, lesson.day, noon),
                      Contains("attended"));
}

TEST_CASE("who asks again changes what was asked, and stands at the end only after declining") {
    Lesson lesson = asked_for();
    CHECK(ask_for_place(lesson, asking("K01", 50, {"series"})));
    CHECK(find_asked(lesson, "K01")->topics == Codes{"series"});
    CHECK_FALSE(ask_for_place(lesson, asking("K01", 60, {"series"})));
    CHECK(next_in_line(lesson, {}) == Codes{"K01", "K02", "K03"});
    decline_places(lesson, {"K01"}, {}, monday, noon);
    CHECK(ask_for_place(lesson, asking("K01", 70, {"series"})));
    CHECK(next_in_line(lesson, {}) == Codes{"K02", "K03", "K01"});
    CHECK_THROWS_WITH(ask_for_place(lesson, asking("K05", 80, {"surds"})), Contains("is not on 'surds'"));
}

TEST_CASE("a wish asks for those of its topics that the lesson is on, on a day that suits") {
    const Lesson lesson = example();
    const Wish wish{"K01", {"surds", "vectors"}, {lesson.day}};
    REQUIRE(wish_for(wish, lesson, noon));
    CHECK(wish_for(wish, lesson, noon)->topics == Codes{"vectors"});
    CHECK(wish_for({"K01", {"series", "vectors"}}, lesson, noon)->topics.empty());
    CHECK(wish_for({"K01"}, lesson, noon));
    CHECK_FALSE(wish_for({"K01", {"surds"}}, lesson, noon));
    CHECK_FALSE(wish_for({"K01", {}, {lesson.day + Days{1}}}, lesson, noon));
}

TEST_CASE("a change of a lesson touches the plans of those who come otherwise than before") {
    Lesson before = asked_for();
    settle_place(before, "K01", PlaceState::confirmed, monday, noon);
    Lesson after = before;
    CHECK(touched_by(before, after).empty());
    settle_place(after, "K02", PlaceState::offered, monday, noon);
    CHECK(touched_by(before, after).empty());
    settle_place(after, "K02", PlaceState::confirmed, monday, noon);
    CHECK(touched_by(before, after) == Codes{"K02"});
    after.day += Days{1};
    CHECK(touched_by(before, after) == Codes{"K01", "K02"});
    CHECK(touched_by(after, std::nullopt) == Codes{"K01", "K02"});
    Lesson later = before;
    later.places = 9;
    later.start.reset();
    CHECK(touched_by(before, later).empty());
    settle_place(later, "K01", PlaceState::attended, later.day, noon);
    CHECK(touched_by(before, later) == Codes{"K01"});
}
