#include "inkturn/base/date_orders.hpp"

#include "catch.hpp"

#include <string>

using namespace inkturn;

namespace {

std::string read(DateOrders& orders, const char* text) {
    const auto day = orders.read(text);
    return day ? iso(*day) : "none";
}

} // namespace

TEST_CASE("a date whose day is above 12 is read in the one order that there is") {
    DateOrders orders;
    CHECK(read(orders, "25/11/2026") == "2026-11-25");
    CHECK(read(orders, "13.1.2026") == "2026-01-13");
    CHECK(read(orders, "11/11/2026") == "2026-11-11"); // the same day in both orders
    DateOrders other;
    CHECK(read(other, "11/25/2026") == "2026-11-25");
    DateOrders year_first;
    CHECK(read(year_first, "2026/10/11") == "2026-10-11");
}

TEST_CASE("a date that could be two days is none, whatever was read before") {
    DateOrders orders;
    CHECK(read(orders, "10/11/2026") == "none");
    CHECK(read(orders, "25/11/2026") == "2026-11-25");
    CHECK(read(orders, "10/11/2026") == "none");
    CHECK(read(orders, "12/12/26") == "none");
    CHECK(read(orders, "31/13/2026") == "none");
    CHECK(read(orders, "soon") == "none");
}

TEST_CASE("the dates of one file are all in one order") {
    DateOrders orders;
    CHECK(read(orders, "11/11/2026") == "2026-11-11");
    CHECK(read(orders, "25/11/2026") == "2026-11-25");
    CHECK(read(orders, "11/25/2026") == "none");
    CHECK(read(orders, "26/11/2026") == "2026-11-26");
}
