#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace inkturn {

/// A length in a drawing as SVG writes it, whatever the locale: rounded to two decimals, no trailing zeros,
/// never
/// `-0`. Between -10^12 and 10^12.
std::string svg_number(double length);

/// Lengths are in pixels of the drawing; x grows to the right, y downwards.
struct SvgPoint {
    double x;
    double y;
};

struct SvgBox {
    double left;
    double top;
    double width;
    double height;

    double right() const { return left + width; }
    double bottom() const { return top + height; }
    double middle() const { return left + width / 2; }
};

enum class SvgAnchor { start, middle, end };

/// Fillings of areas, which can be told apart without colour.
enum class SvgFill { solid, hatch, dots, none };

/// A drawing for a page of HTML, written element by element: what is drawn later covers what was drawn
/// before. Classes of chart_style() set how lines and areas look. All text is escaped().
class Svg {
  public:
    /// `id`, of letters, digits and `-`, starts all ids inside; it is unique on a page.
    Svg(std::string id, double width) : id_(std::move(id)), width_(width) {}

    double width() const { return width_; }

    void line(SvgPoint from, SvgPoint to, std::string_view css_class);
    /// One point or more, joined by straight lines.
    void path(const std::vector<SvgPoint>& points, std::string_view css_class);
    void rect(const SvgBox& box, std::string_view css_class);
    void area(const SvgBox& box, SvgFill fill);
    void dot(SvgPoint centre, double radius, std::string_view css_class);
    /// `at` is on the text's base line, at its start, middle or end. The class may be empty.
    void text(SvgPoint at, std::string_view plain, SvgAnchor anchor, std::string_view css_class = {});
    /// Reads upwards; `at` as in text().
    void text_upwards(SvgPoint at, std::string_view plain, SvgAnchor anchor);

    /// The element, with a title and a description for those who can't see it.
    std::string str(double height, std::string_view title, std::string_view description) const;

  private:
    std::string patterns() const;

    std::string id_;
    double width_;
    std::string body_;
};

} // namespace inkturn
