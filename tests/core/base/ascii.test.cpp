#include "inkturn/base/ascii.hpp"

#include "catch.hpp"

#include <string>

using namespace inkturn;

TEST_CASE("letters and digits are those of ASCII, whatever the locale") {
    for (int i = 0; i < 256; ++i) {
        const char c = static_cast<char>(static_cast<unsigned char>(i));
        CAPTURE(i);
        CHECK(is_ascii(c) == (i < 128));
        CHECK(is_digit(c) == (std::string("0123456789").find(c) != std::string::npos));
        CHECK(is_lower(c) == (std::string("abcdefghijklmnopqrstuvwxyz").find(c) != std::string::npos));
        CHECK(is_upper(c) == (std::string("ABCDEFGHIJKLMNOPQRSTUVWXYZ").find(c) != std::string::npos));
        CHECK(is_letter_or_digit(c) == (is_lower(c) || is_upper(c) || is_digit(c)));
    }
}

TEST_CASE("only letters of ASCII change their case") {
    CHECK(lower_case("Q7 (B)\xC3\x89") == "q7 (b)\xC3\x89");
    CHECK(upper('a') == 'A');
    CHECK(upper('[') == '[');
    CHECK(lower('Z') == 'z');
    CHECK(lower('@') == '@');
}
