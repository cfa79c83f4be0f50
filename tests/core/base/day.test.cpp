#include "inkturn/base/day.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <string>

namespace {

using namespace inkturn;

constexpr Day today{date::year{2026} / date::November / 25};

} // namespace

TEST_CASE("a date with the month's name says itself which number is which") {
    const Day tenth = *read_iso_day("2026-11-10");
    for (const char* text : {"2026-11-10", "10 Nov 2026", "10 November 2026", "10-nov-2026", "10.NOV.2026",
                             "10th Nov 2026", "Nov 10, 2026", "November 10th, 2026", "Tue 10 Nov 2026",
                             "tuesday, 10 november 2026", "2026 Nov 10"}) {
        CAPTURE(text);
        CHECK(read_plain_day(text) == tenth);
    }
    CHECK(read_plain_day("1 Sept 2026") == *read_iso_day("2026-09-01"));
    CHECK(read_plain_day("May 2nd 2028") == *read_iso_day("2028-05-02"));
    for (const char* text : {"", "10 Nov", "Nov 2026", "10 Nov 26", "10/11/2026", "31 Nov 2026", "0 Nov 2026",
                             "10 No 2026", "10 Novm 2026", "Mon 10 Nov 2026", "10 Nov 2026 9", "10 10 2026",
                             "10 Nov 1899", "x 10 Nov 2026", "10xx Nov 2026", "Tue", "2026 10 Nov 2026"}) {
        CAPTURE(text);
        CHECK_FALSE(read_plain_day(text));
    }
}

TEST_CASE("every accepted day is read back from its ISO text, and its weekday follows the one before") {
    int wrong = 0;
    unsigned weekday = weekday_index(earliest_day);
    for (Day day = earliest_day; day <= latest_day; day += Days{1}) {
        const auto read = read_iso_day(iso(day));
        if (!read || *read != day || weekday_index(day) != weekday)
            ++wrong;
        weekday = (weekday + 1) % 7;
    }
    CHECK(wrong == 0);
}

TEST_CASE("only days of the calendar from 1900 to 2200 are read") {
    CHECK(read_iso_day("2028-02-29").has_value());
    CHECK(read_iso_day("2000-02-29").has_value());
    CHECK(read_iso_day("1900-01-01").has_value());
    CHECK(read_iso_day("2200-12-31").has_value());
    for (const char* const text : {"2026-02-29", "1900-02-29", "2100-02-29", "2026-13-01", "2026-00-10",
                                   "2026-04-31", "2026-01-00", "1899-12-31", "2201-01-01", "0000-00-00"}) {
        CAPTURE(text);
        CHECK_FALSE(read_iso_day(text).has_value());
    }
}

TEST_CASE("only the ISO form is read") {
    for (const char* const text : {"", "2026-1-5", "25/11/2026", "2026/11/25", "20261125", " 2026-11-25",
                                   "2026-11-25 ", "2026-11-2x", "+026-11-25", "2026-11-255", "-026-11-25"}) {
        CAPTURE(text);
        CHECK_FALSE(read_iso_day(text).has_value());
    }
}

TEST_CASE("a day may be typed as today, tomorrow or days ahead") {
    CHECK(iso(parse_day("today", today)) == "2026-11-25");
    CHECK(iso(parse_day("tomorrow", today)) == "2026-11-26");
    CHECK(iso(parse_day("+0d", today)) == "2026-11-25");
    CHECK(iso(parse_day("+14d", today)) == "2026-12-09");
    CHECK(iso(parse_day("Today", today)) == "2026-11-25");
    CHECK(iso(parse_day("2026-11-01", today)) == "2026-11-01");
    for (const char* const text : {"", "+d", "14d", "+14", "+1.5d", "++1d", "+36526d", "to day"}) {
        CAPTURE(text);
        CHECK_THROWS_AS(parse_day(text, today), Error);
    }
}

TEST_CASE("days ahead stay within the accepted days") {
    CHECK_THROWS_AS(parse_day("tomorrow", latest_day), Error);
    CHECK_THROWS_AS(parse_day("+1d", latest_day), Error);
    CHECK(parse_day("+1d", latest_day - Days{1}) == latest_day);
    CHECK(parse_day("tomorrow", earliest_day - Days{1}) == earliest_day);
    CHECK_THROWS_AS(parse_day("+1d", earliest_day - Days{2}), Error);
}

TEST_CASE("the reason why a text isn't a day fits what is wrong with it") {
    CHECK(why_no_day("25/11/2026") ==
          "'25/11/2026' is not a date: write it as year-month-day, such as 2026-11-25");
    CHECK(why_no_day("2026-02-30") == "'2026-02-30' is not in the calendar");
    CHECK(why_no_day("2300-01-01") == "'2300-01-01' is outside 1900-01-01 to 2200-12-31");
    CHECK_THROWS_WITH(parse_day("soon", today),
                      "'soon' is not a date: write it as year-month-day, such as 2026-11-25, "
                      "or as today, yesterday, tomorrow, +14d, -1d or sat");
}

TEST_CASE("a date for people may leave the weekday out") {
    CHECK(date_text(Day{date::year{2026} / date::November / 5}) == "5 Nov 2026");
    CHECK(date_text(Day{date::year{2026} / date::November / 25}) == "25 Nov 2026");
}

TEST_CASE("a day is typed as at most a hundred years ahead") {
    const Day today{date::year{2026} / date::November / 25};
    CHECK(parse_day("+36525d", today) == today + Days{36525});
    CHECK_THROWS_AS(parse_day("+36526d", today), Error);
}

TEST_CASE("a day is spoken with its weekday and without leading zeros") {
    CHECK(day_text(today) == "Wed 25 Nov 2026");
    CHECK(day_text(parse_day("2026-03-01", today)) == "Sun 1 Mar 2026");
    std::string names;
    for (int i = 0; i < 12; ++i)
        names += day_text(parse_day("2026-01-05", today) + Days{30 * i + i / 2}) + "; ";
    CHECK(names == "Mon 5 Jan 2026; Wed 4 Feb 2026; Sat 7 Mar 2026; Mon 6 Apr 2026; Thu 7 May 2026; "
                   "Sat 6 Jun 2026; Tue 7 Jul 2026; Thu 6 Aug 2026; Sun 6 Sep 2026; Tue 6 Oct 2026; "
                   "Fri 6 Nov 2026; Sun 6 Dec 2026; ");
}

TEST_CASE("a weekday is today, or else the last or the next of its name") {
    const Day wednesday{date::year{2026} / date::November / 25};
    CHECK(parse_day("wed", wednesday, WeekdayMeans::last) == wednesday);
    CHECK(parse_day("wed", wednesday, WeekdayMeans::next) == wednesday);
    CHECK(parse_day("thu", wednesday, WeekdayMeans::last) == wednesday - Days{6});
    CHECK(parse_day("thu", wednesday, WeekdayMeans::next) == wednesday + Days{1});
    CHECK(parse_day("tuesday", wednesday, WeekdayMeans::last) == wednesday - Days{1});
    CHECK(parse_day("Tues", wednesday, WeekdayMeans::next) == wednesday + Days{6});
    CHECK(parse_day("sun", wednesday, WeekdayMeans::last) == wednesday - Days{3});
    for (const char* text : {"tu", "sundays", "w", "", "mo n"}) {
        INFO(text);
        CHECK_THROWS_AS(parse_day(text, wednesday), Error);
    }
}

TEST_CASE("days are counted from today, forwards and back") {
    const Day today{date::year{2026} / date::November / 25};
    CHECK(parse_day("yesterday", today) == today - Days{1});
    CHECK(parse_day("-1d", today) == today - Days{1});
    CHECK(parse_day("+0d", today) == today);
    CHECK(parse_day("-36525d", today + Days{10000}) == today - Days{26525});
    for (const char* text : {"-d", "+d", "1d", "-1", "--1d", "-36526d", "- 1d"}) {
        INFO(text);
        CHECK_THROWS_AS(parse_day(text, today), Error);
    }
    CHECK_THROWS_AS(parse_day("yesterday", earliest_day), Error);
}

TEST_CASE("a date in three numbers is read in the order that is said") {
    const Day tenth = Day(date::year{2026} / 11 / 10);
    CHECK(read_day_in_order("10/11/2026", DateOrder::day_month_year) == tenth);
    CHECK(read_day_in_order("11/10/2026", DateOrder::month_day_year) == tenth);
    CHECK(read_day_in_order("2026/11/10", DateOrder::year_month_day) == tenth);
    CHECK(read_day_in_order("10.11.2026", DateOrder::day_month_year) == tenth);
    CHECK(read_day_in_order("1-2-2026", DateOrder::day_month_year) == Day(date::year{2026} / 2 / 1));
    for (const char* text : {"10/11/26", "31/02/2026", "2026/11/10", "10/11", "10/11/2026/", "10/11-2026", "",
                             "10//2026", "13/13/2026", "10/11/1899"})
        CHECK_FALSE(read_day_in_order(text, DateOrder::day_month_year));
    CHECK_FALSE(read_day_in_order("25/11/2026", DateOrder::month_day_year));
    CHECK(has_date_shape("25/11/2026"));
    CHECK_FALSE(has_date_shape("25 Nov 2026"));
}
