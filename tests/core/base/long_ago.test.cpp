#include "inkturn/base/long_ago.hpp"

#include "catch.hpp"

using namespace inkturn;

TEST_CASE("a day is long ago once it is more than a calendar year before today") {
    const auto is_long = [](const char* day, const char* today) {
        return is_long_ago(*read_iso_day(day), *read_iso_day(today));
    };
    CHECK_FALSE(is_long("2025-11-30", "2026-11-30"));
    CHECK(is_long("2025-11-29", "2026-11-30"));
    CHECK_FALSE(is_long("2026-12-01", "2026-11-30"));
    CHECK_FALSE(is_long("2027-03-01", "2028-02-29")); // the year before had no such day
    CHECK(is_long("2027-02-28", "2028-02-29"));
    CHECK(long_ago_text(*read_iso_day("2025-11-03")) == "Mon 3 Nov 2025 is more than a year back");
}

TEST_CASE("a day is far ahead once it is more than a calendar year after today") {
    const auto is_far = [](const char* day, const char* today) {
        return is_far_ahead(*read_iso_day(day), *read_iso_day(today));
    };
    CHECK_FALSE(is_far("2027-11-30", "2026-11-30"));
    CHECK(is_far("2027-12-01", "2026-11-30"));
    CHECK_FALSE(is_far("2025-01-01", "2026-11-30"));
    CHECK_FALSE(is_far("2029-02-28", "2028-02-29")); // a year on there is no such day
    CHECK(is_far("2029-03-01", "2028-02-29"));
    CHECK(far_ahead_text(*read_iso_day("2027-12-04")) == "Sat 4 Dec 2027 is more than a year ahead");
}

TEST_CASE("a day is far off once it is more than three calendar years after today") {
    const auto is_far = [](const char* day, const char* today) {
        return is_far_off(*read_iso_day(day), *read_iso_day(today));
    };
    CHECK_FALSE(is_far("2029-11-30", "2026-11-30"));
    CHECK(is_far("2029-12-01", "2026-11-30"));
    CHECK_FALSE(is_far("2025-01-01", "2026-11-30"));
    CHECK_FALSE(is_far("2031-02-28", "2028-02-29")); // three years on there is no such day
    CHECK(is_far("2031-03-01", "2028-02-29"));
    CHECK(far_off_text(*read_iso_day("2040-06-01")) == "Fri 1 Jun 2040 is more than three years off");
}
