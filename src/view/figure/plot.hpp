#pragma once

#include "view/figure/axis.hpp"
#include "view/figure/figures.hpp"
#include "view/figure/svg.hpp"

#include <string>
#include <vector>

namespace inkturn {

// What the figures are drawn with.

/// What a legend shows beside a name.
enum class Key { solid, hatch, dots, outline, bar, band, curve, expected, share, interval };

struct LegendItem {
    Key key;
    std::string name;
};

/// From the left edge on and down from `top`, in as many rows as it takes; the y below them.
double draw_legend(Svg& svg, double top, const std::vector<LegendItem>& items);

/// Grid lines across the box and labels left of it.
void draw_left_axis(Svg& svg, const SvgBox& box, const Scale& scale, const std::vector<Tick>& ticks);

/// Grid lines up the box, labels below it and below these the name of what is measured; the y below all.
double draw_bottom_axis(Svg& svg, const SvgBox& box, const Scale& scale, const std::vector<Tick>& ticks,
                        const std::string& name);

/// The base line of a text that is `middle` at half its height.
double base_line(double middle);

/// Pixels that the widest grade's name takes beside or above a band; longer names are cut.
double grades_width(const std::vector<GradeBand>& bands);

enum class Side { right, top };

/// Boundary bands: across the box with their grades right of it, or up it with their grades above it. The
/// scale is of shares.
void draw_bands(Svg& svg, const SvgBox& box, const Scale& scale, const std::vector<GradeBand>& bands,
                Side grades_at);

/// ` Boundaries over the sets: A 70% to 76%; B 60%.`, or nothing.
std::string bands_text(const std::vector<GradeBand>& bands);

/// `14% to 53%`, or one of them where both are the same.
std::string percent_range(double from, double to);

} // namespace inkturn
