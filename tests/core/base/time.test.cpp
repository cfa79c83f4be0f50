#include "inkturn/base/time.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <string>

using namespace inkturn;

TEST_CASE("a length shows hours only from an hour on") {
    CHECK(length_text(Seconds(0)) == "0:00");
    CHECK(length_text(Seconds(9)) == "0:09");
    CHECK(length_text(Seconds(864)) == "14:24");
    CHECK(length_text(Seconds(3599)) == "59:59");
    CHECK(length_text(Seconds(3600)) == "1:00:00");
    CHECK(length_text(Seconds(36'000'005)) == "10000:00:05");
}

TEST_CASE("a time of day is read with or without seconds") {
    CHECK(parse_time_of_day("9:00") == Seconds(32400));
    CHECK(parse_time_of_day("09:00") == Seconds(32400));
    CHECK(parse_time_of_day("00:00:00") == Seconds(0));
    CHECK(parse_time_of_day("23:59:59") == Seconds(86399));
}

TEST_CASE("what is not a time of day is refused") {
    for (const char* const text : {"", "9", "9:0", "24:00", "09:60", "09:00:60", "009:00", "9:000", "-9:00",
                                   "09:00:", ":00", "09:00:00:00", "9.30", "9:30am", " 9:30"}) {
        CAPTURE(text);
        CHECK_THROWS_AS(parse_time_of_day(text), Error);
    }
}

TEST_CASE("every second of the day is read back from its text") {
    int wrong = 0;
    for (int second = 0; second < 86400; ++second)
        if (parse_time_of_day(time_of_day_text(Seconds(second))) != Seconds(second))
            ++wrong;
    CHECK(wrong == 0);
}

TEST_CASE("a time past midnight starts again") {
    CHECK(time_of_day_text(Seconds(86400)) == "00:00:00");
    CHECK(time_of_day_text(Seconds(90061)) == "01:01:01");
}
