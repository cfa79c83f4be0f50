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
