#include "view/figure/figures.hpp"

#include "view/figure/lettering.hpp"
#include "view/figure/plot.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr double pace_plot_height = 190;
constexpr std::int64_t max_mark_intervals = 6;
constexpr Seconds minute{60};

Seconds worked(const PaceCurve& pace) {
    return pace.points.empty() ? Seconds(0) : pace.points.back().worked;
}

bool ink_changed(const PaceCurve& pace) {
    return worked(pace) >= pace.allowance;
}

Marks done(const PaceCurve& pace) {
    return pace.points.empty() ? Marks(0) : pace.points.back().marks;
}

std::string count(Marks marks) {
    return std::to_string(marks.count());
}

/// On the straight line of the allowance, rounded down.
std::string expected(const PaceCurve& pace, Seconds time) {
    return std::to_string(std::min(time, pace.allowance).count() * pace.marks.count() /
                          pace.allowance.count());
}

/// A step up where a part is left.
std::vector<SvgPoint> steps(const PaceCurve& pace, const Scale& time, const Scale& marks) {
    std::vector<SvgPoint> points{{time.at(0), marks.at(0)}};
    for (const ClockPoint& point : pace.points) {
        const double x = time.at(static_cast<double>(point.worked.count()));
        points.push_back({x, points.back().y});
        points.push_back({x, marks.at(point.marks.count())});
    }
    return points;
}

/// The line, and its label in the row of the axis' title, as near to the line as there is room.
void draw_change_of_ink(Svg& svg, const SvgBox& box, double x, double title_end, Seconds at) {
    svg.line({x, box.top - 5}, {x, box.bottom()}, "change");
    const std::string label = "ink changed at " + length_text(at);
    const double half = text_width(label) / 2;
    svg.text({std::min(std::max(x, title_end + half), svg.width() - half), box.top - 10}, label,
             SvgAnchor::middle);
}

std::string draw(const std::string& id, const PaceCurve& pace, const Chart& chart) {
    Svg svg(id, Chart::width);
    const double top =
        draw_legend(svg, 0, {{Key::curve, "parts done"}, {Key::expected, "marks expected"}}) + line_height;
    const std::string title = "marks";
    svg.text({0, top}, title, SvgAnchor::start);

    const std::vector<Tick> mark_ticks = count_ticks(pace.marks.count(), max_mark_intervals);
    const double left = std::max(24.0, text_width(mark_ticks.back().label) + 6);
    const Seconds longest = std::max({worked(pace), pace.allowance, minute});
    const double label_width = text_width(std::to_string(longest / minute));
    const SvgBox box{left, top + 10, svg.width() - left - label_width / 2 - 2, pace_plot_height};
    const Scale marks{0, mark_ticks.back().value, box.bottom(), box.top};
    const Scale time{0, static_cast<double>(longest.count()), box.left, box.right()};

    draw_left_axis(svg, box, marks, mark_ticks);
    const double bottom =
        draw_bottom_axis(svg, box, time, minute_ticks(longest, max_intervals(box.width, label_width)),
                         "minutes worked, without breaks");
    const double allowance = time.at(static_cast<double>(pace.allowance.count()));
    svg.line({time.at(0), marks.at(0)}, {allowance, marks.at(pace.marks.count())}, "paid");
    if (ink_changed(pace))
        draw_change_of_ink(svg, box, allowance, text_width(title) + 8, pace.allowance);
    svg.path(steps(pace, time, marks), "curve");
    return svg.str(bottom, chart.title, chart.alternative);
}

std::string alternative(const PaceCurve& pace) {
    std::string text = count(done(pace)) + " of " + count(pace.marks) + " marks done after " +
                       length_text(worked(pace)) + " of work; the allowance was " +
                       length_text(pace.allowance) + ".";
    if (!ink_changed(pace))
        return text + " The ink didn't change.";
    Marks at_change;
    for (const ClockPoint& point : pace.points)
        if (point.worked <= pace.allowance)
            at_change = point.marks;
    return text + " When the ink changed, " + count(at_change) + " marks were done.";
}

HtmlTable table_of(const PaceCurve& pace) {
    HtmlTable table{
        "Marks against working time", {{"worked", true}, {"marks done", true}, {"marks expected", true}}, {}};
    for (const ClockPoint& point : pace.points)
        table.rows.push_back({length_text(point.worked), count(point.marks), expected(pace, point.worked)});
    return table;
}

} // namespace

Chart pace_chart(const std::string& id, const PaceCurve& pace) {
    Chart chart{"Marks against minutes", alternative(pace), {}, table_of(pace)};
    chart.svg = draw(id, pace, chart);
    return chart;
}

} // namespace inkturn
