#include "view/figure/svg.hpp"

#include "view/page/html.hpp"

#include <cmath>
#include <cstdint>

namespace inkturn {
namespace {

std::string attribute(std::string_view name, double length) {
    return " " + std::string(name) + "=\"" + svg_number(length) + "\"";
}

std::string attribute(std::string_view name, std::string_view value) {
    return value.empty() ? "" : " " + std::string(name) + "=\"" + std::string(value) + "\"";
}

std::string place(const SvgBox& box) {
    return attribute("x", box.left) + attribute("y", box.top) + attribute("width", box.width) +
           attribute("height", box.height);
}

std::string place(SvgPoint at) {
    return attribute("x", at.x) + attribute("y", at.y);
}

std::string_view name(SvgAnchor anchor) {
    switch (anchor) {
    case SvgAnchor::start:
        return "";
    case SvgAnchor::middle:
        return "middle";
    case SvgAnchor::end:
        return "end";
    }
    return "";
}

std::string_view name(SvgFill fill) {
    switch (fill) {
    case SvgFill::solid:
        return "solid";
    case SvgFill::hatch:
        return "hatch";
    case SvgFill::dots:
        return "dots";
    case SvgFill::none:
        return "outline";
    }
    return "";
}

bool has_pattern(SvgFill fill) {
    return fill == SvgFill::hatch || fill == SvgFill::dots;
}

std::string pattern(const std::string& id, std::string_view size, std::string_view drawn) {
    return "<pattern id=\"" + id + "\"" + attribute("width", size) + attribute("height", size) +
           " patternUnits=\"userSpaceOnUse\">" + std::string(drawn) + "</pattern>";
}

} // namespace

std::string svg_number(double length) {
    const auto hundredths = static_cast<std::int64_t>(std::llround(length * 100));
    const std::int64_t size = std::abs(hundredths);
    std::string text = (hundredths < 0 ? "-" : "") + std::to_string(size / 100);
    if (size % 100 == 0)
        return text;
    text += '.';
    text += static_cast<char>('0' + size % 100 / 10);
    if (size % 10 != 0)
        text += static_cast<char>('0' + size % 10);
    return text;
}

void Svg::line(SvgPoint from, SvgPoint to, std::string_view css_class) {
    body_ += "<line" + attribute("class", css_class) + attribute("x1", from.x) + attribute("y1", from.y) +
             attribute("x2", to.x) + attribute("y2", to.y) + "/>\n";
}

void Svg::path(const std::vector<SvgPoint>& points, std::string_view css_class) {
    std::string drawn;
    for (const SvgPoint& point : points)
        drawn += (drawn.empty() ? "M" : "L") + svg_number(point.x) + " " + svg_number(point.y);
    body_ += "<path" + attribute("class", css_class) + attribute("d", drawn) + "/>\n";
}

void Svg::rect(const SvgBox& box, std::string_view css_class) {
    body_ += "<rect" + attribute("class", css_class) + place(box) + "/>\n";
}

void Svg::area(const SvgBox& box, SvgFill fill) {
    const std::string reference =
        has_pattern(fill) ? "url(#" + id_ + "-" + std::string(name(fill)) + ")" : std::string();
    body_ += "<rect" + attribute("class", name(fill)) + place(box) + attribute("fill", reference) + "/>\n";
}

void Svg::dot(SvgPoint centre, double radius, std::string_view css_class) {
    body_ += "<circle" + attribute("class", css_class) + attribute("cx", centre.x) +
             attribute("cy", centre.y) + attribute("r", radius) + "/>\n";
}

void Svg::text(SvgPoint at, std::string_view plain, SvgAnchor anchor, std::string_view css_class) {
    body_ += "<text" + attribute("class", css_class) + place(at) + attribute("text-anchor", name(anchor)) +
             ">" + escaped(plain) + "</text>\n";
}

void Svg::text_upwards(SvgPoint at, std::string_view plain, SvgAnchor anchor) {
    const std::string turned = "rotate(-90 " + svg_number(at.x) + " " + svg_number(at.y) + ")";
    body_ += "<text" + place(at) + attribute("text-anchor", name(anchor)) + attribute("transform", turned) +
             ">" + escaped(plain) + "</text>\n";
}

/// Only those that areas are filled with.
std::string Svg::patterns() const {
    const std::string hatch = id_ + "-hatch";
    const std::string dots = id_ + "-dots";
    std::string all;
    if (body_.find("url(#" + hatch + ")") != std::string::npos)
        all += pattern(hatch, "5", "<path d=\"M-1 1L1 -1M-1 6L6 -1M4 6L6 4\"/>");
    if (body_.find("url(#" + dots + ")") != std::string::npos)
        all += pattern(dots, "4", "<circle cx=\"2\" cy=\"2\" r=\"1\"/>");
    return all.empty() ? "" : "<defs>" + all + "</defs>\n";
}

std::string Svg::str(double height, std::string_view title, std::string_view description) const {
    const std::string title_id = id_ + "-title";
    const std::string description_id = id_ + "-text";
    return "<svg id=\"" + id_ + "\" class=\"chart\" role=\"img\" aria-labelledby=\"" + title_id +
           "\" aria-describedby=\"" + description_id + "\" viewBox=\"0 0 " + svg_number(width_) + " " +
           svg_number(height) + "\">\n<title id=\"" + title_id + "\">" + escaped(title) +
           "</title>\n<desc id=\"" + description_id + "\">" + escaped(description) + "</desc>\n" +
           patterns() + body_ + "</svg>\n";
}

} // namespace inkturn
