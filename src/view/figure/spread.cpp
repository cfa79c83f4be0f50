#include "view/figure/figures.hpp"

#include "view/figure/lettering.hpp"
#include "view/figure/plot.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr double spread_plot_height = 170;
constexpr std::int64_t max_bins = 12;
constexpr std::int64_t max_spread_intervals = 5;

/// Totals from `from` to `to`, inclusive.
struct Bin {
    int from;
    int to;
    std::size_t totals;
};

/// One bin per mark on a short paper. Otherwise the last one also holds the maximum, which would start a bin.
std::vector<Bin> bins_of(const TotalsSpread& spread) {
    const int full = spread.max.count();
    const auto step = static_cast<int>(round_step(full, max_bins));
    const int count = step == 1 ? full + 1 : (full + step - 1) / step;
    std::vector<Bin> bins;
    for (int i = 0; i < count; ++i)
        bins.push_back({i * step, i + 1 == count ? full : (i + 1) * step - 1, 0});
    for (const Marks total : spread.totals)
        ++bins[static_cast<std::size_t>(std::min(total.count() / step, count - 1))].totals;
    return bins;
}

bool has_a_bin_a_mark(const std::vector<Bin>& bins) {
    return bins.front().to == 0;
}

/// A bin of one mark reaches up to the next mark.
double end_of(const std::vector<Bin>& bins) {
    return bins.back().to + (has_a_bin_a_mark(bins) ? 1 : 0);
}

/// Where bins start, or the middle of a bin of one mark.
std::vector<Tick> ticks_of(const std::vector<Bin>& bins, std::int64_t most) {
    std::vector<Tick> ticks = count_ticks(bins.back().to, most);
    if (ticks.back().value > bins.back().to)
        ticks.pop_back();
    if (has_a_bin_a_mark(bins))
        for (Tick& tick : ticks)
            tick.value += 0.5;
    return ticks;
}

std::string name_of(const Bin& bin) {
    return bin.from == bin.to ? std::to_string(bin.from)
                              : std::to_string(bin.from) + " to " + std::to_string(bin.to);
}

std::size_t max_in_a_bin(const std::vector<Bin>& bins) {
    std::size_t most = 0;
    for (const Bin& bin : bins)
        most = std::max(most, bin.totals);
    return most;
}

void draw_bars(Svg& svg, const std::vector<Bin>& bins, const Scale& marks, const Scale& counts) {
    for (std::size_t i = 0; i < bins.size(); ++i) {
        const double left = marks.at(bins[i].from) + 1;
        const double right = marks.at(i + 1 < bins.size() ? bins[i + 1].from : end_of(bins)) - 1;
        const double top = counts.at(static_cast<double>(bins[i].totals));
        if (bins[i].totals > 0)
            svg.rect({left, top, right - left, counts.start - top}, "bar");
    }
}

std::string draw(const std::string& id, const TotalsSpread& spread, const std::vector<Bin>& bins,
                 const Chart& chart) {
    Svg svg(id, Chart::width);
    double top = 0;
    if (!spread.bands.empty())
        top = draw_legend(svg, 0, {{Key::bar, "candidates"}, {Key::band, "boundaries"}}) + 4;
    top += line_height;
    svg.text({0, top}, "candidates", SvgAnchor::start);
    if (!spread.bands.empty())
        top += line_height + 8;

    const std::vector<Tick> count_marks =
        count_ticks(static_cast<std::int64_t>(max_in_a_bin(bins)), max_spread_intervals);
    const double left = text_width(count_marks.back().label) + 12;
    const double label_width = text_width(std::to_string(spread.max.count()));
    const SvgBox box{left, top + 10, svg.width() - left - label_width / 2 - 4, spread_plot_height};
    const Scale counts{0, count_marks.back().value, box.bottom(), box.top};
    const Scale marks{0, end_of(bins), box.left, box.right()};
    const Scale shares{0, 1, box.left, marks.at(spread.max.count())};

    draw_left_axis(svg, box, counts, count_marks);
    const double bottom =
        draw_bottom_axis(svg, box, marks, ticks_of(bins, max_intervals(box.width, label_width)),
                         "marks out of " + std::to_string(spread.max.count()));
    draw_bands(svg, box, shares, spread.bands, Side::top);
    draw_bars(svg, bins, marks, counts);
    return svg.str(bottom, chart.title, chart.alternative);
}

std::string alternative(const TotalsSpread& spread, const std::vector<Bin>& bins) {
    const std::size_t candidates = spread.totals.size();
    if (candidates == 0)
        return "No candidates." + bands_text(spread.bands);
    const auto [least, most] = std::minmax_element(spread.totals.begin(), spread.totals.end());
    const Bin& fullest = *std::max_element(bins.begin(), bins.end(),
                                           [](const Bin& a, const Bin& b) { return a.totals < b.totals; });
    return count_text(candidates, "candidate") + ", from " + std::to_string(least->count()) + " to " +
           std::to_string(most->count()) + " marks out of " + std::to_string(spread.max.count()) +
           "; the fullest bar, " + name_of(fullest) + ", holds " + std::to_string(fullest.totals) + "." +
           bands_text(spread.bands);
}

HtmlTable table_of(const std::vector<Bin>& bins) {
    HtmlTable table{"Candidates, by marks", {{"marks"}, {"candidates", true}}, {}};
    for (const Bin& bin : bins)
        table.rows.push_back({name_of(bin), std::to_string(bin.totals)});
    return table;
}

} // namespace

Chart spread_chart(const std::string& id, const TotalsSpread& spread) {
    const std::vector<Bin> bins = bins_of(spread);
    Chart chart{"The spread of totals", alternative(spread, bins), {}, table_of(bins)};
    chart.svg = draw(id, spread, bins, chart);
    return chart;
}

} // namespace inkturn
