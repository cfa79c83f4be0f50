#include "inkturn/base/length.hpp"

#include "catch.hpp"

#include <type_traits>

using namespace inkturn;

TEST_CASE("an inch is 72 points and 25.4 mm") {
    CHECK(points(Millimetres(25.4)).value() == Approx(72));
    CHECK(millimetres(Points(72)).value() == Approx(25.4));
    CHECK(millimetres(points(Millimetres(210))).value() == Approx(210));
}

TEST_CASE("lengths add up, are compared and give a number as their ratio") {
    Points length = 3 * Points(2.5) - Points(1.5);
    CHECK(length == Points(6));
    length += Points(1);
    length -= Points(3);
    CHECK(length == Points(8) / 2);
    CHECK(length != Points(5));
    CHECK(length < Points(5));
    CHECK(length <= Points(4));
    CHECK(length > -length);
    CHECK(length >= Points(4));
    CHECK(Points(9) / Points(6) == 1.5);
    CHECK(abs(Points(2) - Points(5)) == Points(3));
    CHECK(abs(Points(5) - Points(2)) == Points(3));
    CHECK(Points() == Points(0));
}

TEST_CASE("a scale turns lengths on paper into pixels and back") {
    constexpr PixelsPerMillimetre scale(6);
    CHECK(Millimetres(2.5) * scale == Pixels(15));
    CHECK(Pixels(15) / scale == Millimetres(2.5));
}

TEST_CASE("a number isn't a length, nor points millimetres or pixels") {
    CHECK_FALSE(std::is_convertible_v<double, Points>);
    CHECK_FALSE(std::is_convertible_v<Points, double>);
    CHECK_FALSE(std::is_constructible_v<Points, Millimetres>);
    CHECK_FALSE(std::is_constructible_v<Pixels, Points>);
}
