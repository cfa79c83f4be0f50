#include "view/figure/figures.hpp"

#include "view/figure/lettering.hpp"
#include "view/figure/plot.hpp"

#include <algorithm>
#include <cstdint>

namespace inkturn {
namespace {

constexpr double turns_bar_height = 13;
constexpr double between_bars = 2;
constexpr double turns_row_height = 40;
constexpr std::int64_t max_turns_intervals = 6;

std::string name_of(const TurnCount& turn) {
    return "turn " + std::to_string(turn.turn);
}

void draw_bar(Svg& svg, double top, std::size_t count, SvgFill fill, const Scale& scale) {
    const double end = scale.at(static_cast<double>(count));
    if (count > 0)
        svg.area({scale.start, top, end - scale.start, turns_bar_height}, fill);
    svg.text({end + 5, base_line(top + turns_bar_height / 2)}, std::to_string(count), SvgAnchor::start,
             "on-pattern");
}

std::string draw(const std::string& id, const std::vector<TurnCount>& turns, const Chart& chart) {
    Svg svg(id, Chart::width);
    const double top = draw_legend(svg, 0, {{Key::outline, "done"}, {Key::solid, "got"}}) + 8;
    std::size_t most = 0;
    double left = 40;
    for (const TurnCount& turn : turns) {
        most = std::max(most, turn.done);
        left = std::max(left, text_width(name_of(turn)) + 8);
    }
    const auto highest = static_cast<std::int64_t>(most);
    const double label_width = text_width(count_ticks(highest, 1).back().label);
    const double height = turns_row_height * static_cast<double>(std::max<std::size_t>(1, turns.size()));
    const SvgBox box{left, top, svg.width() - left - label_width - 8, height};
    const std::vector<Tick> ticks =
        count_ticks(highest, std::min(max_turns_intervals, max_intervals(box.width, label_width)));
    const Scale scale{0, ticks.back().value, box.left, box.right()};
    const double bottom = draw_bottom_axis(svg, box, scale, ticks, "retries");
    for (std::size_t i = 0; i < turns.size(); ++i) {
        const double middle = top + turns_row_height * (static_cast<double>(i) + 0.5);
        svg.text({0, base_line(middle)}, name_of(turns[i]), SvgAnchor::start);
        draw_bar(svg, middle - turns_bar_height - between_bars / 2, turns[i].done, SvgFill::none, scale);
        draw_bar(svg, middle + between_bars / 2, turns[i].got, SvgFill::solid, scale);
    }
    return svg.str(bottom, chart.title, chart.alternative);
}

std::string alternative(const std::vector<TurnCount>& turns, std::size_t drawn) {
    std::string text;
    for (std::size_t i = 0; i < drawn; ++i)
        text += (text.empty() ? "" : "; ") + name_of(turns[i]) + ": " + std::to_string(turns[i].got) +
                " got of " + std::to_string(turns[i].done) + " done";
    return text.empty() ? "No retry done." : text + ".";
}

HtmlTable table_of(const std::vector<TurnCount>& turns) {
    HtmlTable table{"Retries done and got, by turn", {{"turn"}, {"done", true}, {"got", true}}, {}};
    for (const TurnCount& turn : turns)
        table.rows.push_back(
            {std::to_string(turn.turn), std::to_string(turn.done), std::to_string(turn.got)});
    return table;
}

} // namespace

Chart turns_chart(const std::string& id, const std::vector<TurnCount>& turns) {
    const std::size_t drawn = std::min(turns.size(), max_turns);
    const std::vector<TurnCount> first(turns.begin(), turns.begin() + static_cast<std::ptrdiff_t>(drawn));
    Chart chart{"Retries by turn", alternative(turns, drawn), {}, table_of(turns)};
    chart.svg = draw(id, first, chart);
    return chart;
}

} // namespace inkturn
