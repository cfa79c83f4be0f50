#include "inkturn/base/number.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <limits>
#include <string>
#include <string_view>

using namespace inkturn;

TEST_CASE("a whole number is decimal digits alone") {
    CHECK(read_whole_number("0", 9) == 0);
    CHECK(read_whole_number("010", 99) == 10);
    CHECK(read_whole_number("2147483647", std::numeric_limits<int>::max()) == 2147483647);
    for (const char* const text : {"", "-1", "+1", " 1", "1 ", "1.0", "1e1", "0x1", "1,000", "\xD9\xA1",
                                   "2147483648", "99999999999999999999999999"}) {
        CAPTURE(text);
        CHECK_FALSE(read_whole_number(text, std::numeric_limits<int>::max()).has_value());
    }
}

TEST_CASE("a number above the most is not read") {
    CHECK(read_whole_number("12", 12) == 12);
    CHECK_FALSE(read_whole_number("13", 12).has_value());
}

TEST_CASE("a number is read to the end of the text, whatever follows it in memory") {
    const std::string_view digits = "1234";
    CHECK(read_whole_number(digits.substr(0, 2), 99) == 12);
    CHECK(read_whole_number(digits.substr(1, 2), 99) == 23);
}

TEST_CASE("a refused number is told what was expected") {
    CHECK(parse_whole_number("3", 1, 9, "turns") == 3);
    CHECK_THROWS_WITH(parse_whole_number("0", 1, 9, "turns"), "turns '0': give a whole number from 1 to 9");
    CHECK_THROWS_AS(parse_whole_number("10", 1, 9, "turns"), Error);
}
