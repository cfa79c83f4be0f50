#include "inkturn/retry/steering.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"

#include <string>

using namespace inkturn;
using namespace inkturn::test;

TEST_CASE("what is dropped has a reason of 1 to 200 characters") {
    CHECK_NOTHROW(check_steering(Steering{day(3), LetGo{day(0), std::string(200, 'r')}}));
    CHECK_THROWS_AS(check_steering(Steering{std::nullopt, LetGo{day(0), ""}}), Error);
    CHECK_THROWS_AS(check_steering(Steering{std::nullopt, LetGo{day(0), std::string(201, 'r')}}), Error);
    CHECK_THROWS_AS(check_steering(Steering{std::nullopt, LetGo{latest_day + Days{1}, "why"}}), Error);
    CHECK_THROWS_AS(check_steering(Steering{latest_day + Days{1}, std::nullopt}), Error);
}

TEST_CASE("a paper or a topic is steered by its name") {
    CHECK_NOTHROW(check_steering(SteeredWork{WorkPurpose::sit, "pure", "p1", {day(3), std::nullopt}}));
    CHECK_THROWS_AS(check_steering(SteeredWork{WorkPurpose::sit, "pure", "", {day(3), std::nullopt}}), Error);
    CHECK_THROWS_AS(check_steering(SteeredWork{WorkPurpose::recall, "pure", "4", {day(3), std::nullopt}}),
                    Error);
    CHECK_THROWS_AS(
        check_steering(SteeredWork{WorkPurpose::relearn, "pure", "vectors", {{}, LetGo{day(0), ""}}}), Error);
}

TEST_CASE("a day asked for stands until it has passed") {
    const Steering asked{day(3), std::nullopt};
    CHECK(asked.standing(day(3)) == day(3));
    CHECK_FALSE(asked.standing(day(4)));
}
