#include "inkturn/lesson/places.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"

#include <chrono>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;
using Codes = std::vector<std::string>;

PlaceAsked place(const std::string& candidate, int minutes, PlaceState state) {
    return {candidate, Moment{monday} + std::chrono::minutes{minutes}, {}, "", state};
}

Lesson at_hour(const std::string& id, int hour, std::vector<PlaceAsked> asked) {
    Lesson lesson{id, monday + Days{5}, std::chrono::hours{hour}, std::chrono::hours{1}, "pure", {"vectors"},
                  3};
    lesson.asked = std::move(asked);
    return lesson;
}

} // namespace

TEST_CASE("lessons overlap where they share a minute of one day and both have a time") {
    const Lesson at_four = at_hour("a", 16, {});
    Lesson other = at_hour("b", 17, {});
    CHECK_FALSE(overlap(at_four, other));
    other.start = *other.start - std::chrono::minutes{1};
    CHECK(overlap(at_four, other));
    CHECK(overlap(other, at_four));
    other.day += Days{1};
    CHECK_FALSE(overlap(at_four, other));
    other = at_four;
    CHECK(overlap(at_four, other));
    other.start.reset();
    CHECK_FALSE(overlap(at_four, other));
}

TEST_CASE("nobody confirms two lessons at one time, or attends both") {
    const Lesson there =
        at_hour("a", 16, {place("K01", 0, PlaceState::confirmed), place("K02", 1, PlaceState::attended)});
    const auto here = [](const std::string& candidate, PlaceState state) {
        return at_hour("b", 16, {place(candidate, 0, state)});
    };
    CHECK_THROWS_WITH(check_nobody_is_in_two(here("K01", PlaceState::confirmed), {there}),
                      Contains("comes to lesson a"));
    CHECK_THROWS_WITH(check_nobody_is_in_two(here("K02", PlaceState::confirmed), {there}),
                      Contains("attended lesson a"));
    CHECK_THROWS_WITH(check_nobody_is_in_two(here("K02", PlaceState::attended), {there}),
                      Contains("nobody can be in both"));
    CHECK_NOTHROW(check_nobody_is_in_two(here("K01", PlaceState::attended), {there})); // went to the other
    CHECK_NOTHROW(check_nobody_is_in_two(here("K01", PlaceState::offered), {there}));
    CHECK_NOTHROW(check_nobody_is_in_two(there, {there}));
    CHECK_NOTHROW(
        check_nobody_is_in_two(at_hour("b", 17, here("K01", PlaceState::confirmed).asked), {there}));
}

TEST_CASE("who comes to another lesson at that time, or is offered a place there, is passed over") {
    Lesson lesson = at_hour("b", 16,
                            {place("K01", 0, PlaceState::asked), place("K02", 1, PlaceState::asked),
                             place("K03", 2, PlaceState::asked), place("K04", 3, PlaceState::asked)});
    const std::vector<Lesson> on_file{
        lesson,
        at_hour("a", 16, {place("K01", 0, PlaceState::confirmed), place("K03", 1, PlaceState::offered)}),
        at_hour("c", 17, {place("K02", 0, PlaceState::confirmed)})};
    const Elsewhere elsewhere = elsewhere_then(lesson, on_file, monday);
    REQUIRE(elsewhere.size() == 2);
    CHECK((elsewhere.at("K01").lesson == "a" && elsewhere.at("K01").state == PlaceState::confirmed));
    CHECK((elsewhere.at("K03").lesson == "a" && elsewhere.at("K03").state == PlaceState::offered));
    CHECK(elsewhere_then(lesson, on_file, monday + Days{6}).size() == 1); // an offer is over with the lesson
    CHECK(next_in_line(lesson, {}, elsewhere) == Codes{"K02", "K04"});
    CHECK_THROWS_WITH(check_is_not_elsewhere(lesson, "K03", on_file),
                      Contains("is offered a place in lesson a"));
    CHECK_THROWS_WITH(check_is_not_elsewhere(lesson, "K01", on_file), Contains("comes to lesson a"));
    CHECK_NOTHROW(check_is_not_elsewhere(lesson, "K02", on_file));
    CHECK(offered_elsewhere(lesson, "K03", on_file) == Codes{"a"});
    CHECK(offer_free_places(lesson, {}, monday, 1, elsewhere) == Codes{"K02"});
    CHECK(decline_places(lesson, {"K02"}, {}, monday, Moment{monday}, elsewhere) == Codes{"K04"});
}

TEST_CASE("a lesson keeps at least the places that are taken") {
    Lesson before = at_hour("a", 16,
                            {place("K01", 0, PlaceState::confirmed), place("K02", 1, PlaceState::offered),
                             place("K03", 2, PlaceState::asked)});
    Lesson after = before;
    after.places = 2;
    CHECK_NOTHROW(check_can_be_changed(before, after));
    after.places = 1;
    CHECK_THROWS_WITH(check_can_be_changed(before, after), Contains("2 places offered or confirmed"));
    before.places = 1; // some may come without one
    after.asked[2].state = PlaceState::attended;
    CHECK_NOTHROW(check_can_be_changed(before, after));
}

TEST_CASE("those with a place before somebody who waits and asked earlier are out of turn") {
    Lesson lesson = at_hour("a", 16,
                            {place("K01", 0, PlaceState::asked), place("K02", 1, PlaceState::confirmed),
                             place("K03", 2, PlaceState::declined), place("K04", 3, PlaceState::offered)});
    CHECK(placed_out_of_turn(lesson, {}) == Codes{"K02", "K04"});
    lesson.order = PlaceOrder::marks;
    CHECK(placed_out_of_turn(lesson, {{"K02", Marks(9)}, {"K01", Marks(5)}, {"K04", Marks(1)}}) ==
          Codes{"K04"});
    lesson.asked[0].state = PlaceState::declined;
    CHECK(placed_out_of_turn(lesson, {}).empty());
}

TEST_CASE("a lesson that was attended keeps its time, and its topics may be corrected") {
    const Lesson before = at_hour("a", 16, {place("K01", 0, PlaceState::attended)});
    Lesson after = before;
    after.topics = {"series"};
    after.places = 9;
    CHECK_NOTHROW(check_can_be_changed(before, after));
    after.day += Days{7};
    CHECK_THROWS_WITH(check_can_be_changed(before, after), Contains("can't be moved"));
    after = before;
    after.start.reset();
    CHECK_THROWS_AS(check_can_be_changed(before, after), Error);
    after = before;
    after.duration += std::chrono::minutes{1};
    CHECK_THROWS_AS(check_can_be_changed(before, after), Error);
    CHECK_NOTHROW(check_can_be_changed(at_hour("a", 16, {place("K01", 0, PlaceState::confirmed)}), after));
}

TEST_CASE("attendance that was recorded by mistake is a confirmed place again") {
    Lesson lesson = at_hour("a", 16, {place("K01", 0, PlaceState::attended)});
    take_back_attendance(lesson, "K01");
    CHECK(lesson.asked[0].state == PlaceState::confirmed);
    CHECK_THROWS_WITH(take_back_attendance(lesson, "K01"), Contains("not on file as having attended"));
    CHECK_THROWS_AS(take_back_attendance(lesson, "K02"), Error);
}
