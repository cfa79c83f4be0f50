#include "inkturn/base/day_span.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

namespace {

using namespace inkturn;

constexpr Day wednesday{date::year{2026} / date::November / 25};

} // namespace

TEST_CASE("a span holds both its ends and nothing beyond them") {
    const DaySpan span{wednesday, wednesday + Days{2}};
    CHECK_FALSE(span.contains(wednesday - Days{1}));
    CHECK(span.contains(wednesday));
    CHECK(span.contains(wednesday + Days{2}));
    CHECK_FALSE(span.contains(wednesday + Days{3}));
}

TEST_CASE("a span of days is one day, or two with both ends included") {
    const DaySpan one = parse_day_span("tomorrow", wednesday);
    CHECK(iso(one.first) == "2026-11-26");
    CHECK(iso(one.last) == "2026-11-26");
    const DaySpan span = parse_day_span("today..+14d", wednesday);
    CHECK(iso(span.first) == "2026-11-25");
    CHECK(iso(span.last) == "2026-12-09");
    const DaySpan dates = parse_day_span("2026-12-24..2027-01-02", wednesday);
    CHECK((dates.last - dates.first).count() == 9);
}

TEST_CASE("a span that ends before it starts, or lacks an end, is refused") {
    for (const char* const text : {"2026-12-24..2026-12-23", "..", "today..", "..today", "today...tomorrow",
                                   "today..tomorrow..+3d", ""}) {
        CAPTURE(text);
        CHECK_THROWS_AS(parse_day_span(text, wednesday), Error);
    }
}

TEST_CASE("a span holds at most 1,500 days") {
    CHECK_NOTHROW(parse_day_span("today..+1499d", wednesday));
    CHECK_THROWS_WITH(parse_day_span("today..+1500d", wednesday), "'today..+1500d' is longer than 1500 days");
}

TEST_CASE("days to come are refused where all are past, with the year that is likely meant") {
    CHECK(iso(parse_span_ahead("2026-11-20..2026-11-25", wednesday).first) == "2026-11-20");
    CHECK_THROWS_WITH(parse_span_ahead("2025-12-24..2025-12-27", wednesday),
                      "2025-12-24..2025-12-27 are all past (today is 2026-11-25): did you mean "
                      "2026-12-24..2026-12-27?");
    CHECK_THROWS_WITH(parse_span_ahead("2024-02-29", wednesday),
                      "2024-02-29 is past (today is 2026-11-25): did you mean 2027-03-01?");
    CHECK_THROWS_WITH(parse_span_ahead("yesterday", wednesday),
                      "2026-11-24 is past (today is 2026-11-25): give a day from today on");
}
