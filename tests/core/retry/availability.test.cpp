#include "inkturn/retry/availability.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <string>

namespace {

using namespace inkturn;

constexpr Day wednesday{date::year{2026} / date::November / 25};

} // namespace

TEST_CASE("until the candidate says otherwise there is an hour a day, and Sunday is off") {
    const Availability availability;
    for (int ahead = 0; ahead < 7; ++ahead) {
        const Day day = wednesday + Days{ahead};
        CHECK(availability.on(day) == Seconds(weekday_index(day) == 6 ? 0 : 3600));
    }
}

TEST_CASE("a single date overrules its weekday, and only itself") {
    Availability availability;
    availability.dates[wednesday] = Seconds(0);
    availability.dates[wednesday + Days{4}] = Seconds(5400);
    CHECK(availability.on(wednesday) == Seconds(0));
    CHECK(availability.on(wednesday + Days{4}) == Seconds(5400));
    CHECK(availability.on(wednesday + Days{7}) == Seconds(3600));
    CHECK(availability.on(wednesday + Days{11}) == Seconds(0));
}

TEST_CASE("the minutes of a day are 0 to 1440") {
    CHECK(parse_minutes_of_day("0") == Seconds(0));
    CHECK(parse_minutes_of_day("90") == Seconds(5400));
    CHECK(parse_minutes_of_day("1440") == Seconds(86400));
    for (const char* const text : {"", "-1", "1441", "1.5", "1h", " 60", "99999999999"})
        CHECK_THROWS_AS(parse_minutes_of_day(text), Error);
}

TEST_CASE("a weekday is named by three letters, Monday first") {
    for (unsigned index = 0; index < 7; ++index)
        CHECK(parse_weekday(weekday_name(index)) == index);
    CHECK(parse_weekday("mon") == 0);
    CHECK(parse_weekday("sun") == 6);
    for (const char* const text : {"", "Mon", "monday", "mo"})
        CHECK_THROWS_AS(parse_weekday(text), Error);
}

TEST_CASE("a week keeps as many days free as are wished: those with the least time, the later if tied") {
    const Day monday{date::year{2026} / date::November / 2};
    Availability availability;
    availability.week.fill(Seconds(3600));
    for (int i = 0; i < 14; ++i) {
        CHECK(availability.on(monday + Days{i}) == (i % 7 == 6 ? Seconds(0) : Seconds(3600)));
        CHECK(availability.time_set(monday + Days{i}) == Seconds(3600));
    }
    availability.dates[monday + Days{2}] = Seconds(600);
    CHECK(availability.on(monday + Days{2}) == Seconds(0));
    CHECK(availability.on(monday + Days{6}) == Seconds(3600));
    CHECK(availability.on(monday + Days{13}) == Seconds(0));
    availability.free_days = Days(0);
    CHECK(availability.on(monday + Days{2}) == Seconds(600));
    availability.free_days = Days(3);
    CHECK(availability.on(monday + Days{4}) == Seconds(3600));
    CHECK(availability.on(monday + Days{5}) == Seconds(0));
    CHECK(availability.on(monday + Days{6}) == Seconds(0));
    CHECK_FALSE(availability.is_default());
    CHECK(Availability().on(monday + Days{6}) == Seconds(0)); // Sundays are off: one day is free already
    CHECK(Availability().on(monday + Days{5}) == Seconds(3600));
}

TEST_CASE("a lesson takes its time of the day it is on, and no other day becomes free or loses its rest") {
    const Day monday{date::year{2026} / date::November / 2};
    Availability availability;
    availability.week.fill(Seconds(3600));
    availability.taken[monday + Days{2}] = Seconds(2400);
    CHECK(availability.on(monday + Days{2}) == Seconds(1200));
    CHECK(availability.time_set(monday + Days{2}) == Seconds(3600));
    CHECK(availability.on(monday + Days{1}) == Seconds(3600));
    CHECK(availability.on(monday + Days{6}) == Seconds(0));
    availability.taken[monday + Days{2}] = Seconds(7200);
    CHECK(availability.on(monday + Days{2}) == Seconds(0));
    Availability usual;
    usual.taken[monday] = Seconds(60);
    CHECK(usual.is_default());
}
