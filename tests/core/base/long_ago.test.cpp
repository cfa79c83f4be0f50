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
