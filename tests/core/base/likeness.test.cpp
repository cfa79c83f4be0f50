#include "inkturn/base/likeness.hpp"
#include "catch.hpp"

using namespace inkturn;

TEST_CASE("accents are composed, whichever way they were typed") {
    CHECK(composed("Ze\u0301") == "Z\u00E9");
    CHECK(composed("Z\u00E9") == "Z\u00E9");
    CHECK(composed("K07") == "K07");
    CHECK(composed("K\xE9") == "K\xE9"); // not UTF-8
}

TEST_CASE("codes that look the same are alike") {
    CHECK(likeness("K07") == likeness("k7"));
    CHECK(likeness("0012") == likeness("12"));
    CHECK(likeness("ZE\u0301") == likeness("z\u00E9"));
    CHECK(likeness("K\u200B07") == likeness("K07"));
    CHECK(likeness("\u202EK07\u202C") == likeness("K07"));
    CHECK(likeness("Ann\u00A0 Lee") == likeness("Ann Lee"));
    CHECK(likeness("K70") != likeness("K7"));
    CHECK(likeness("0") != likeness(""));
    CHECK(likeness("K007b01") == "k7b1");
}

TEST_CASE("a character that shows nothing is found") {
    CHECK(has_invisible_character("K\u200E07"));
    CHECK(has_invisible_character("K\u2060"));
    CHECK_FALSE(has_invisible_character("Z\u00E9"));
    CHECK_FALSE(has_invisible_character("K07"));
}

TEST_CASE("characters compose as Unicode's NormalizationTest.txt 15.0 says", "[reference]") {
    CHECK(composed("\u1E0A\u0323") == "\u1E0C\u0307");  // 1E0A 0323;1E0C 0307
    CHECK(composed("D\u0307\u0323") == "\u1E0C\u0307"); // 0044 0307 0323;1E0C 0307
    CHECK(composed("\u212B") == "\u00C5");              // ANGSTROM SIGN;00C5
    CHECK(composed("\u1100\u1161") == "\uAC00");        // UAX #15, Hangul
}
