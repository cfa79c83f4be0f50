#include "view/figure/plot.hpp"

#include "view/figure/chart.hpp"
#include "view/figure/lettering.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr double key_width = 20;
constexpr double key_height = 11;
constexpr double beside_key = 5;
constexpr double between_items = 14;
constexpr double legend_row = 17;
constexpr double beside_axis = 5; ///< between an axis and its labels
constexpr double leader = 6;      ///< from a band to its grade
constexpr double between_grades = 4;
constexpr double max_grade_width = 44;

SvgFill fill_of(Key key) {
    switch (key) {
    case Key::solid:
        return SvgFill::solid;
    case Key::hatch:
        return SvgFill::hatch;
    case Key::dots:
        return SvgFill::dots;
    default:
        return SvgFill::none;
    }
}

void draw_interval(Svg& svg, double left, double right, double y) {
    svg.line({left, y}, {right, y}, "interval");
    svg.line({left, y - 4}, {left, y + 4}, "interval");
    svg.line({right, y - 4}, {right, y + 4}, "interval");
}

void draw_key(Svg& svg, const SvgBox& box, Key key) {
    const double y = box.top + box.height / 2;
    switch (key) {
    case Key::solid:
    case Key::hatch:
    case Key::dots:
    case Key::outline:
        svg.area(box, fill_of(key));
        break;
    case Key::bar:
        svg.rect(box, "bar");
        break;
    case Key::band:
        svg.rect(box, "band");
        svg.line({box.left, box.top}, {box.right(), box.top}, "edge");
        svg.line({box.left, box.bottom()}, {box.right(), box.bottom()}, "edge");
        break;
    case Key::curve:
        svg.path({{box.left, box.bottom()},
                  {box.middle(), box.bottom()},
                  {box.middle(), box.top},
                  {box.right(), box.top}},
                 "curve");
        break;
    case Key::expected:
        svg.line({box.left, box.bottom()}, {box.right(), box.top}, "paid");
        break;
    case Key::share:
        svg.dot({box.middle(), y}, 5, "share");
        break;
    case Key::interval:
        draw_interval(svg, box.left + 1, box.right() - 1, y);
        break;
    }
}

/// A band's start, end and middle along the scale, the lower pixel first.
struct Stretch {
    double from;
    double to;

    double middle() const { return (from + to) / 2; }
    double length() const { return to - from; }
};

Stretch stretch_of(const GradeBand& band, const Scale& scale) {
    const double low = scale.at(band.low);
    const double high = scale.at(band.high);
    return {std::min(low, high), std::max(low, high)};
}

/// By their middles, as their labels are.
std::vector<GradeBand> in_order(std::vector<GradeBand> bands, const Scale& scale) {
    std::stable_sort(bands.begin(), bands.end(), [&](const GradeBand& a, const GradeBand& b) {
        return stretch_of(a, scale).middle() < stretch_of(b, scale).middle();
    });
    return bands;
}

/// An area between two edges, which coincide if all sets agree.
void draw_band(Svg& svg, const SvgBox& box, const Stretch& stretch, Side grades_at) {
    const bool is_across = grades_at == Side::right;
    svg.rect(is_across ? SvgBox{box.left, stretch.from, box.width, stretch.length()}
                       : SvgBox{stretch.from, box.top, stretch.length(), box.height},
             "band");
    for (const double at : {stretch.from, stretch.to})
        if (is_across)
            svg.line({box.left, at}, {box.right(), at}, "edge");
        else
            svg.line({at, box.top}, {at, box.bottom()}, "edge");
}

std::vector<double> middles(const std::vector<GradeBand>& bands, const Scale& scale) {
    std::vector<double> all;
    for (const GradeBand& band : bands)
        all.push_back(stretch_of(band, scale).middle());
    return all;
}

void name_bands_at_right(Svg& svg, const SvgBox& box, const Scale& scale,
                         const std::vector<GradeBand>& bands) {
    const std::vector<double> wanted = middles(bands, scale);
    for (const PlacedLabel& placed : place_apart(wanted, line_height, box.top, box.bottom())) {
        svg.line({box.right(), wanted[placed.label]}, {box.right() + leader, placed.at}, {});
        svg.text({box.right() + leader + 2, base_line(placed.at)},
                 cut_to_width(bands[placed.label].grade, max_grade_width), SvgAnchor::start);
    }
}

void name_bands_at_top(Svg& svg, const SvgBox& box, const Scale& scale, const std::vector<GradeBand>& bands) {
    const std::vector<double> wanted = middles(bands, scale);
    const double half = grades_width(bands) / 2;
    const double gap = 2 * half + between_grades;
    for (const PlacedLabel& placed : place_apart(wanted, gap, half, svg.width() - half)) {
        svg.line({wanted[placed.label], box.top}, {placed.at, box.top - leader}, {});
        svg.text({placed.at, box.top - leader - 3}, cut_to_width(bands[placed.label].grade, max_grade_width),
                 SvgAnchor::middle);
    }
}

} // namespace

double draw_legend(Svg& svg, double top, const std::vector<LegendItem>& items) {
    double left = 0;
    for (const LegendItem& item : items) {
        const double width = key_width + beside_key + text_width(item.name);
        if (left > 0 && left + width > svg.width()) {
            left = 0;
            top += legend_row;
        }
        draw_key(svg, {left + 1, top + (legend_row - key_height) / 2, key_width - 2, key_height}, item.key);
        svg.text({left + key_width + beside_key, base_line(top + legend_row / 2)}, item.name,
                 SvgAnchor::start);
        left += width + between_items;
    }
    return top + legend_row;
}

double base_line(double middle) {
    return middle + 4;
}

void draw_left_axis(Svg& svg, const SvgBox& box, const Scale& scale, const std::vector<Tick>& ticks) {
    for (const Tick& tick : ticks) {
        const double y = scale.at(tick.value);
        svg.line({box.left, y}, {box.right(), y}, tick.value == scale.low ? "" : "grid");
        svg.text({box.left - beside_axis, base_line(y)}, tick.label, SvgAnchor::end);
    }
}

double draw_bottom_axis(Svg& svg, const SvgBox& box, const Scale& scale, const std::vector<Tick>& ticks,
                        const std::string& name) {
    for (const Tick& tick : ticks) {
        const double x = scale.at(tick.value);
        svg.line({x, box.top}, {x, box.bottom()}, tick.value == scale.low ? "" : "grid");
        svg.text({x, box.bottom() + line_height}, tick.label, SvgAnchor::middle);
    }
    svg.text({box.middle(), box.bottom() + 2 * line_height + 1}, name, SvgAnchor::middle);
    return box.bottom() + 2 * line_height + 5;
}

double grades_width(const std::vector<GradeBand>& bands) {
    double widest = 0;
    for (const GradeBand& band : bands)
        widest = std::max(widest, text_width(cut_to_width(band.grade, max_grade_width)));
    return widest;
}

void draw_bands(Svg& svg, const SvgBox& box, const Scale& scale, const std::vector<GradeBand>& bands,
                Side grades_at) {
    const std::vector<GradeBand> ordered = in_order(bands, scale);
    for (const GradeBand& band : ordered)
        draw_band(svg, box, stretch_of(band, scale), grades_at);
    if (grades_at == Side::right)
        name_bands_at_right(svg, box, scale, ordered);
    else
        name_bands_at_top(svg, box, scale, ordered);
}

std::string percent_range(double from, double to) {
    return percent(from) == percent(to) ? percent(from) : percent(from) + " to " + percent(to);
}

std::string bands_text(const std::vector<GradeBand>& bands) {
    std::string text;
    for (const GradeBand& band : bands)
        text +=
            (text.empty() ? " Boundaries: " : "; ") + band.grade + " " + percent_range(band.low, band.high);
    return text.empty() ? text : text + ".";
}

} // namespace inkturn
