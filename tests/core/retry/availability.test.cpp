#include "inkturn/retry/availability.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <map>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

constexpr Day wednesday{date::year{2026} / date::November / 25};

Day date_ahead(int days) {
    return wednesday + Days{days};
}

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
    CHECK(stated(usual).dates.empty()); // what is taken is worked out, not stated
}

TEST_CASE("own times stand before those of a class, and these before everybody's hour") {
    StatedTimes own;
    own.week[0] = Seconds(600);
    StatedTimes of_class;
    of_class.week[0] = Seconds(1200);
    of_class.week[1] = Seconds(1800);
    of_class.free_days = Days(2);
    of_class.dates[date_ahead(0)] = Seconds(0);
    of_class.dates[date_ahead(1)] = Seconds(60);
    own.dates[date_ahead(1)] = Seconds(120);

    const Availability both = availability_of(own, {of_class});
    CHECK(both.week[0] == Seconds(600));
    CHECK(both.week[1] == Seconds(1800));
    CHECK(both.week[2] == Seconds(3600));
    CHECK(both.free_days == Days(2));
    CHECK(both.dates == std::map<Day, Seconds>{{date_ahead(0), Seconds(0)}, {date_ahead(1), Seconds(120)}});

    own.free_days = Days(0);
    CHECK(availability_of(own, {of_class}).free_days == Days(0));
    CHECK(availability_of({}, {}).week == Availability().week);
    CHECK(availability_of({}, {}).free_days == Availability().free_days);
}

TEST_CASE("a date without time is a day off") {
    const Day monday = date::year{2026} / 11 / 23;
    const std::map<Day, Seconds> dates{{monday, Seconds(0)}, {monday + Days{1}, Seconds(60)}};
    CHECK(is_day_off(dates, monday));
    CHECK_FALSE(is_day_off(dates, monday + Days{1}));
    CHECK_FALSE(is_day_off(dates, monday + Days{2}));
}

TEST_CASE("of several classes the least time counts, and the most free days") {
    StatedTimes a;
    a.week[2] = Seconds(1200);
    a.dates[date_ahead(3)] = Seconds(0);
    a.free_days = Days(1);
    StatedTimes b;
    b.week[2] = Seconds(900);
    b.week[3] = Seconds(300);
    b.dates[date_ahead(3)] = Seconds(600);
    b.free_days = Days(3);
    for (const auto& order : {std::vector<StatedTimes>{a, b}, std::vector<StatedTimes>{b, a}}) {
        const Availability both = availability_of({}, order);
        CHECK(both.week[2] == Seconds(900));
        CHECK(both.week[3] == Seconds(300));
        CHECK(both.dates.at(date_ahead(3)) == Seconds(0));
        CHECK(both.free_days == Days(3));
    }
}

TEST_CASE("stated times say everything that a whole availability does, and are judged like it") {
    Availability whole;
    whole.week[6] = Seconds(900);
    whole.dates[date_ahead(2)] = Seconds(0);
    whole.free_days = Days(0);
    CHECK(availability_of(stated(whole), {}).week == whole.week);
    CHECK(availability_of(stated(whole), {}).dates == whole.dates);
    CHECK(availability_of(stated(whole), {}).free_days == Days(0));
    CHECK(StatedTimes().is_empty());
    CHECK_FALSE(stated(Availability()).is_empty());

    StatedTimes times;
    times.week[0] = Seconds(86401);
    CHECK_THROWS_AS(check_times(times), Error);
    times.week[0] = Seconds(86400);
    CHECK_NOTHROW(check_times(times));
    times.free_days = Days(7);
    CHECK_THROWS_AS(check_times(times), Error);
}
