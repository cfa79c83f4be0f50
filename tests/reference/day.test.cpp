#include "inkturn/base/day.hpp"

#include "catch.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;

/// The ISO 8601 week: the one of a Monday-to-Sunday week's Thursday, counted in the Thursday's year.
std::string iso_week(Day day) {
    const unsigned weekday = weekday_index(day);
    const Day thursday = day + Days{3} - Days{static_cast<int>(weekday)};
    const date::year year = date::year_month_day{thursday}.year();
    const auto days_before = (thursday - Day{year / date::January / 1}).count();
    const std::string week = std::to_string(days_before / 7 + 1);
    return std::to_string(static_cast<int>(year)) + "-W" + (week.size() == 1 ? "0" : "") + week + "-" +
           std::to_string(weekday + 1);
}

Day day(const char* text) {
    const auto read = read_iso_day(text);
    REQUIRE(read);
    return *read;
}

} // namespace

TEST_CASE("RFC 5545 section 3.8.5.3: every other week from 1997-09-02", "[reference]") {
    const std::vector<std::string> published{"1997-09-02", "1997-09-16", "1997-09-30", "1997-10-14",
                                             "1997-10-28", "1997-11-11", "1997-11-25", "1997-12-09",
                                             "1997-12-23", "1998-01-06", "1998-01-20"};
    Day stepped = day("1997-09-02");
    for (const std::string& text : published) {
        CHECK(iso(stepped) == text);
        CHECK(parse_day("+14d", stepped) == stepped + Days{14});
        stepped = parse_day("+14d", stepped);
    }
}

TEST_CASE("RFC 5545 section 3.8.5.3: Fridays that are a 13th", "[reference]") {
    std::vector<std::string> found;
    for (Day each = day("1997-09-02"); each <= day("2000-10-13"); each += Days{1})
        if (weekday_index(each) == 4 && iso(each).substr(8) == "13")
            found.push_back(iso(each));
    CHECK(found ==
          std::vector<std::string>{"1998-02-13", "1998-03-13", "1998-11-13", "1999-08-13", "2000-10-13"});
}

TEST_CASE("ISO 8601 weeks (computed): weekdays give the week of the year", "[reference]") {
    CHECK(iso_week(day("1996-12-30")) == "1997-W01-1");
    CHECK(iso_week(day("2005-01-01")) == "2004-W53-6");
    CHECK(iso_week(day("2006-01-01")) == "2005-W52-7");
    CHECK(iso_week(day("2026-12-28")) == "2026-W53-1");
}

TEST_CASE("ISO 8601 weekdays: every accepted day agrees with the date library's own", "[reference]") {
    int wrong = 0;
    for (Day each = earliest_day; each <= latest_day; each += Days{1})
        if (date::weekday{each} != date::weekday{(weekday_index(each) + 1) % 7})
            ++wrong;
    CHECK(wrong == 0);
}
