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

TEST_CASE("letters of other scripts and digits that share a shape look alike") {
    CHECK(look("\u039A01") == look("K01")); // Greek
    CHECK(look("\u041A01") == look("K01")); // Cyrillic
    CHECK(look("KO2") == look("K02"));
    CHECK(look("K0l") == look("K01"));
    CHECK(look("KI2") == look("K12"));
    CHECK(look("AB\u20137") == look("ab-7"));
    CHECK(look("\uFF2B\uFF10\uFF11") == look("K01")); // wide forms
    CHECK(look("\u0421\u041E\u0420") == look("COP"));
    CHECK(look("K01") != look("L01"));
    CHECK(look("L1") != look("I1"));
    CHECK(look("S5") != look("55"));
    CHECK(look("K\xE9") == look("K\xE9")); // not UTF-8
}

TEST_CASE("of two codes that look alike the first characters that differ are named") {
    CHECK(look_alikes("KO2", "K02") == "O for 0");
    CHECK(look_alikes("\u039A01", "K01") == "\u039A (U+039A) for K");
    CHECK(look_alikes("k0l", "K01") == "l for 1");
    CHECK(look_alikes("K01", "K01").empty());
    CHECK(look_alikes("K01", "L01").empty());
    CHECK(look_alikes("KO", "K").empty());
}

TEST_CASE("among codes another one is found that is like a code, or looks like it") {
    CodesAlike codes;
    for (const char* code : {"K01", "K02", "k2"})
        codes.add(code);
    CHECK(codes.find("K01") == nullptr);
    CHECK(codes.find("K03") == nullptr);
    REQUIRE(codes.find("k1"));
    CHECK(*codes.find("k1") == "K01");
    REQUIRE(codes.find("KO1"));
    CHECK(*codes.find("KO1") == "K01");
    CHECK(*codes.find("k2") == "K02");
    CHECK(codes.find("K02") == nullptr); // the first of its kind
}
