#include "view/figure/figures.hpp"

#include "view/figure/lettering.hpp"
#include "view/figure/plot.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cstdint>

namespace inkturn {
namespace {

constexpr double parts_row_height = 16;
constexpr double parts_bar_height = 11;
constexpr double parts_widest_name = 84;
constexpr double beside_names = 8;
constexpr double beside_bars = 14; ///< room for half of the axis's last label
constexpr const char* no_figure = "-";

/// Those for whom it counted.
std::size_t sat_by(const PartEarned& part, std::size_t candidates) {
    return part.counted.value_or(candidates);
}

std::int64_t max_earned(const PartEarned& part, std::size_t candidates) {
    return static_cast<std::int64_t>(sat_by(part, candidates)) * part.max.count();
}

std::int64_t lost(const PartEarned& part, std::size_t candidates) {
    return max_earned(part, candidates) - part.earned.count();
}

/// For one or more candidates.
double facility(const PartEarned& part, std::size_t candidates) {
    return static_cast<double>(part.earned.count()) / static_cast<double>(max_earned(part, candidates));
}

/// Per candidate, with so many decimals.
std::string mean_text(std::int64_t marks, std::size_t candidates, int places) {
    if (candidates == 0)
        return no_figure;
    return decimal(static_cast<double>(marks) / static_cast<double>(candidates), places);
}

std::string lost_text(const PartEarned& part, std::size_t candidates) {
    return mean_text(lost(part, candidates), sat_by(part, candidates), 1);
}

void draw_row(Svg& svg, const SvgBox& row, const PartEarned& part, std::size_t candidates) {
    const double middle = row.top + row.height / 2;
    svg.text({0, base_line(middle)}, cut_to_width(part.part, parts_widest_name), SvgAnchor::start,
             part.is_marked ? "marked" : "");
    svg.text({svg.width() - beside_text, base_line(middle)}, lost_text(part, candidates), SvgAnchor::end);
    if (candidates == 0)
        return;
    const double top = middle - parts_bar_height / 2;
    const double earned = row.width * facility(part, candidates);
    if (part.earned > Marks(0))
        svg.area({row.left, top, earned, parts_bar_height}, SvgFill::solid);
    if (lost(part, candidates) > 0)
        svg.area({row.left + earned, top, row.width - earned, parts_bar_height}, SvgFill::none);
}

/// Pixels of the widest text.
template <typename Text>
double widest(const std::vector<PartEarned>& parts, const Text& text) {
    double width = 0;
    for (const PartEarned& part : parts)
        width = std::max(width, text_width(text(part)));
    return width;
}

std::string draw(const std::string& id, const std::vector<PartEarned>& parts, std::size_t candidates,
                 const Chart& chart) {
    Svg svg(id, Chart::width);
    const double heads =
        draw_legend(svg, 0, {{Key::solid, "mean share earned (facility)"}, {Key::outline, "lost"}}) +
        line_height;
    svg.text({0, heads}, "part", SvgAnchor::start);
    svg.text({svg.width() - beside_text, heads}, "mean marks lost", SvgAnchor::end);

    const double left = beside_names + std::max(text_width("part"), widest(parts, [](const PartEarned& part) {
                                                    return cut_to_width(part.part, parts_widest_name);
                                                }));
    const double right =
        beside_bars + std::max(text_width("100%") / 2, widest(parts, [&](const PartEarned& part) {
                                   return lost_text(part, candidates);
                               }));
    const double rows = static_cast<double>(std::max<std::size_t>(1, parts.size()));
    const SvgBox box{left, heads + 6, svg.width() - left - right, parts_row_height * rows};
    const double end = draw_bottom_axis(svg, box, {0, 1, box.left, box.right()},
                                        percent_ticks(max_intervals(box.width, text_width("100%"))),
                                        "share of the part's marks");
    for (std::size_t i = 0; i < parts.size(); ++i)
        draw_row(svg,
                 {box.left, box.top + parts_row_height * static_cast<double>(i), box.width, parts_row_height},
                 parts[i], candidates);
    return svg.str(end, chart.title, chart.alternative);
}

std::string in_words(const PartEarned& part, std::size_t candidates) {
    return percent(facility(part, candidates)) + " in " + part.part;
}

/// Names the first if tied.
std::string alternative(const std::vector<PartEarned>& parts, std::size_t drawn, std::size_t candidates) {
    if (parts.empty())
        return "No parts.";
    std::string text = count_text(drawn, "part");
    if (drawn < parts.size())
        text += ", of " + std::to_string(parts.size()) + " in the table";
    if (candidates == 0)
        return text + ". No candidates.";
    const auto [lowest, highest] =
        std::minmax_element(parts.begin(), parts.end(), [&](const PartEarned& a, const PartEarned& b) {
            return facility(a, candidates) < facility(b, candidates);
        });
    const auto costliest =
        std::max_element(parts.begin(), parts.end(), [&](const PartEarned& a, const PartEarned& b) {
            return lost(a, candidates) < lost(b, candidates);
        });
    return text + ", " + count_text(candidates, "candidate") + ". Lowest facility " +
           in_words(*lowest, candidates) + ", highest " + in_words(*highest, candidates) +
           "; most marks lost in " + costliest->part + ", a mean of " + lost_text(*costliest, candidates) +
           ".";
}

HtmlTable table_of(const std::vector<PartEarned>& parts, std::size_t candidates) {
    HtmlTable table{"Unaided marks of the class, by part",
                    {{"part"}, {"max", true}, {"mean", true}, {"facility", true}, {"lost in all", true}},
                    {}};
    for (const PartEarned& part : parts)
        table.rows.push_back({part.part, std::to_string(part.max.count()),
                              mean_text(part.earned.count(), sat_by(part, candidates), 2),
                              candidates == 0 ? no_figure : percent(facility(part, candidates)),
                              candidates == 0 ? no_figure : std::to_string(lost(part, candidates))});
    return table;
}

} // namespace

Chart parts_chart(const std::string& id, const std::vector<PartEarned>& parts, std::size_t candidates) {
    const std::size_t drawn = std::min(parts.size(), max_part_rows);
    const std::vector<PartEarned> first(parts.begin(), parts.begin() + static_cast<std::ptrdiff_t>(drawn));
    Chart chart{
        "Unaided marks by part", alternative(parts, drawn, candidates), {}, table_of(parts, candidates)};
    chart.svg = draw(id, first, candidates, chart);
    return chart;
}

} // namespace inkturn
