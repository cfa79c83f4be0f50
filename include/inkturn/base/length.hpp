#pragma once

namespace inkturn {

/// A length in one unit; lengths of two units don't mix.
template <typename Unit>
class Length {
  public:
    constexpr Length() = default;
    explicit constexpr Length(double value) : value_(value) {}

    constexpr double value() const { return value_; }

    constexpr Length& operator+=(Length other) { return *this = *this + other; }
    constexpr Length& operator-=(Length other) { return *this = *this - other; }

    friend constexpr Length operator+(Length a, Length b) { return Length(a.value_ + b.value_); }
    friend constexpr Length operator-(Length a, Length b) { return Length(a.value_ - b.value_); }
    friend constexpr Length operator-(Length a) { return Length(-a.value_); }
    friend constexpr Length operator*(double times, Length a) { return Length(times * a.value_); }
    friend constexpr Length operator*(Length a, double times) { return Length(a.value_ * times); }
    friend constexpr Length operator/(Length a, double parts) { return Length(a.value_ / parts); }
    friend constexpr double operator/(Length a, Length b) { return a.value_ / b.value_; }

    friend constexpr bool operator==(Length a, Length b) { return a.value_ == b.value_; }
    friend constexpr bool operator!=(Length a, Length b) { return a.value_ != b.value_; }
    friend constexpr bool operator<(Length a, Length b) { return a.value_ < b.value_; }
    friend constexpr bool operator>(Length a, Length b) { return a.value_ > b.value_; }
    friend constexpr bool operator<=(Length a, Length b) { return a.value_ <= b.value_; }
    friend constexpr bool operator>=(Length a, Length b) { return a.value_ >= b.value_; }

    friend constexpr Length abs(Length a) { return a.value_ < 0 ? -a : a; }

  private:
    double value_ = 0;
};

struct PointUnit;
struct MillimetreUnit;
struct PixelUnit;

using Points = Length<PointUnit>; ///< 1/72 inch, on paper
using Millimetres = Length<MillimetreUnit>;
using Pixels = Length<PixelUnit>;

constexpr Points points(Millimetres length) {
    return Points(length.value() * (72 / 25.4));
}
constexpr Millimetres millimetres(Points length) {
    return Millimetres(length.value() * (25.4 / 72));
}

/// How finely paper is drawn: so many pixels to one of the unit, more than 0.
template <typename Unit>
class PixelsPer {
  public:
    explicit constexpr PixelsPer(double pixels) : pixels_(pixels) {}

    friend constexpr Pixels operator*(Length<Unit> length, PixelsPer scale) {
        return Pixels(length.value() * scale.pixels_);
    }
    friend constexpr Length<Unit> operator/(Pixels length, PixelsPer scale) {
        return Length<Unit>(length.value() / scale.pixels_);
    }

  private:
    double pixels_;
};

using PixelsPerPoint = PixelsPer<PointUnit>;
using PixelsPerMillimetre = PixelsPer<MillimetreUnit>;

} // namespace inkturn
