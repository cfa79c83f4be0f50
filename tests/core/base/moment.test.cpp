#include "inkturn/base/moment.hpp"

#include "catch.hpp"

namespace {

using namespace inkturn;

} // namespace

TEST_CASE("a moment is written in UTC, and back") {
    for (const char* text : {"1970-01-01T00:00:00Z", "2026-11-25T09:00:30Z", "1900-01-01T00:00:00Z",
                             "1969-12-31T23:59:59Z", "2024-02-29T12:00:00Z"}) {
        INFO(text);
        REQUIRE(read_iso_moment(text));
        CHECK(iso(*read_iso_moment(text)) == text);
    }
    CHECK(read_iso_moment("2026-11-25T09:00:30Z")->time_since_epoch().count() == 1795597230);
}

TEST_CASE("a text that isn't a moment in UTC is not read") {
    for (const char* text :
         {"", "2026-11-25", "2026-11-25T09:00:30", "2026-11-25 09:00:30Z", "2026-11-25T9:00:30Z",
          "2026-02-30T09:00:30Z", "2026-11-25T24:00:00Z", "2026-11-25T09:00Z", "2026-11-25T09:00:30z",
          "2026-11-25T09:00:30+01", "2201-01-01T00:00:00Z", "2026-11-25T09-00-30Z"}) {
        INFO(text);
        CHECK_FALSE(read_iso_moment(text));
    }
}
