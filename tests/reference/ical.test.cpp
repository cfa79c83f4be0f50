#include "exchange/calendar/ical.hpp"

#include "catch.hpp"
#include "exchange/calendar/ical_lines.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr Day first{date::year{2007} / date::June / 28};
constexpr Day last{date::year{2007} / date::July / 8};

std::vector<Property> written() {
    return properties(to_ical({{"1", first, last, "s", "d"}, {"2", last, last, "s", "d"}}, Moment{first}));
}

auto count_of(const std::string& name) {
    const auto all = written();
    return std::count_if(all.begin(), all.end(), [&](const Property& each) { return each.first == name; });
}

} // namespace

TEST_CASE("RFC 5545: an event from 28 June to 8 July 2007 ends, exclusive, on 9 July", "[reference]") {
    const auto all = written();
    CHECK(all.at(8) == Property("DTSTART;VALUE=DATE", "20070628"));
    CHECK(all.at(9) == Property("DTEND;VALUE=DATE", "20070709"));
}

TEST_CASE("RFC 5545 sections 3.6 and 3.6.1: what a calendar and its events have once", "[reference]") {
    CHECK(count_of("PRODID") == 1);
    CHECK(count_of("VERSION") == 1);
    CHECK(count_of("BEGIN") == 3);
    for (const std::string name : {"UID", "DTSTAMP", "DTSTART;VALUE=DATE"})
        CHECK(count_of(name) == 2);
}

TEST_CASE("RFC 5545 sections 3.8.1.11 and 3.8.7.4: what an event may be, and a sequence that begins at 0",
          "[reference]") {
    const auto all = written();
    CHECK(all.at(6) == Property("SEQUENCE", "0"));
    CHECK(all.at(7) == Property("STATUS", "CONFIRMED"));
    CalendarEvent cancelled{"1", first, last, "s", "d"};
    cancelled.cancelled = true;
    CHECK(properties(to_ical({cancelled}, Moment{first})).at(7) == Property("STATUS", "CANCELLED"));
}

TEST_CASE("RFC 5545 section 3.7.2: an object without METHOD has no scheduling semantics, so none is stated",
          "[reference]") {
    CHECK(count_of("METHOD") == 0);
    for (const std::string name : {"SEQUENCE", "STATUS"})
        CHECK(count_of(name) == 2);
}

TEST_CASE("RFC 5545 section 3.3.11: the characters that a text escapes, a colon not among them",
          "[reference]") {
    CHECK(text_value("\\;,:\n") == "\\\\\\;\\,:\\n");
}

TEST_CASE("RFC 5545 section 3.1: a fold is CRLF and one blank, after 75 octets at most", "[reference]") {
    CHECK(content_line(std::string(100, 'x')) ==
          std::string(75, 'x') + "\r\n " + std::string(25, 'x') + "\r\n");
}
