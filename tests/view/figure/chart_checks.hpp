#pragma once

#include "view/figure/chart.hpp"
#include "view/figure/lettering.hpp"
#include "view/page/page_checks.hpp"

#include <algorithm>
#include <cmath>
#include <regex>
#include <string>
#include <utility>
#include <vector>

namespace inkturn {

struct Box {
    double left;
    double top;
    double right;
    double bottom;
    std::string what;
};

inline bool overlap(const Box& a, const Box& b) {
    constexpr double touch = 0.1; // what rounding may bring
    return a.left < b.right - touch && b.left < a.right - touch && a.top < b.bottom - touch &&
           b.top < a.bottom - touch;
}

inline std::string unescaped(std::string text) {
    const std::pair<const char*, const char*> entities[] = {
        {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}};
    for (const auto& [entity, character] : entities)
        for (std::size_t at; (at = text.find(entity)) != std::string::npos;)
            text.replace(at, std::string(entity).size(), character);
    return text;
}

inline double number(const std::string& element, const std::string& name) {
    const std::string attribute = " " + name + "=\"";
    const std::size_t at = element.find(attribute);
    REQUIRE(at != std::string::npos);
    return std::stod(element.substr(at + attribute.size()));
}

/// As near as two decimals can say.
inline bool is_near(double a, double b) {
    return std::abs(a - b) < 0.02;
}

inline std::vector<std::string> lines_with(const std::string& svg, const std::string& beginning) {
    std::vector<std::string> found;
    for (std::size_t start = 0; start < svg.size();) {
        const std::size_t end = svg.find('\n', start);
        const std::string line = svg.substr(start, end - start);
        if (line.compare(0, beginning.size(), beginning) == 0)
            found.push_back(line);
        start = end + 1;
    }
    return found;
}

/// Letters 12 pixels high, as wide as the widest common font has them.
inline Box box_of_text(const std::string& element) {
    const std::size_t start = element.find('>') + 1;
    const std::string text = unescaped(element.substr(start, element.rfind("</text>") - start));
    const double x = number(element, "x");
    const double y = number(element, "y");
    const double width = text_width(text);
    const double before = holds(element, "\"middle\"") ? width / 2 : holds(element, "\"end\"") ? width : 0;
    if (holds(element, "rotate(-90"))
        return {x - 9.5, y - width + before, x + 2.5, y + before, text};
    return {x - before, y - 9.5, x - before + width, y + 2.5, text};
}

inline std::vector<Box> texts_of(const std::string& svg) {
    std::vector<Box> boxes;
    for (const std::string& line : lines_with(svg, "<text"))
        boxes.push_back(box_of_text(line));
    return boxes;
}

inline std::vector<Box> rects_of(const std::string& svg, const std::string& css_class) {
    std::vector<Box> boxes;
    for (const std::string& line : lines_with(svg, "<rect class=\"" + css_class + "\"")) {
        const double x = number(line, "x");
        const double y = number(line, "y");
        boxes.push_back({x, y, x + number(line, "width"), y + number(line, "height"), css_class});
    }
    return boxes;
}

/// Everything that is drawn.
inline std::vector<Box> shapes_of(const std::string& svg) {
    std::vector<Box> boxes;
    for (const char* css_class : {"solid", "hatch", "dots", "outline", "band", "bar"})
        for (const Box& box : rects_of(svg, css_class))
            boxes.push_back(box);
    for (const std::string& line : lines_with(svg, "<line"))
        boxes.push_back({std::min(number(line, "x1"), number(line, "x2")),
                         std::min(number(line, "y1"), number(line, "y2")),
                         std::max(number(line, "x1"), number(line, "x2")),
                         std::max(number(line, "y1"), number(line, "y2")), line});
    for (const std::string& line : lines_with(svg, "<circle"))
        boxes.push_back(
            {number(line, "cx"), number(line, "cy"), number(line, "cx"), number(line, "cy"), line});
    const std::regex point("[ML](-?[0-9.]+) (-?[0-9.]+)");
    for (const std::string& line : lines_with(svg, "<path"))
        for (std::sregex_iterator at(line.begin(), line.end(), point), end; at != end; ++at)
            boxes.push_back(
                {std::stod((*at)[1]), std::stod((*at)[2]), std::stod((*at)[1]), std::stod((*at)[2]), line});
    return boxes;
}

/// No text covers another, and nothing leaves the drawing.
inline void check_room(const Chart& chart) {
    std::smatch found;
    REQUIRE(std::regex_search(chart.svg, found, std::regex("viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\"")));
    const double width = std::stod(found[1]);
    const double height = std::stod(found[2]);
    REQUIRE(width == Chart::width);
    const std::vector<Box> texts = texts_of(chart.svg);
    REQUIRE(!texts.empty());
    std::vector<Box> all = shapes_of(chart.svg);
    all.insert(all.end(), texts.begin(), texts.end());
    INFO(chart.svg);
    for (const Box& box : all) {
        INFO(box.what);
        REQUIRE((box.left > -0.1 && box.right < width + 0.1 && box.top > -0.1 && box.bottom < height + 0.1));
    }
    for (std::size_t i = 0; i < texts.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            if (overlap(texts[i], texts[j]))
                FAIL(texts[i].what << " covers " << texts[j].what);
        }
}

/// A table with a cell a column in every row.
inline void check_table(const Chart& chart, std::size_t rows) {
    REQUIRE(chart.table.rows.size() == rows);
    for (const std::vector<std::string>& row : chart.table.rows)
        REQUIRE(row.size() == chart.table.columns.size());
}

} // namespace inkturn
