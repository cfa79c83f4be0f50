#include "view/figure/figures.hpp"

#include "view/figure/lettering.hpp"
#include "view/figure/plot.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr double inks_plot_height = 190;
constexpr double max_bar_width = 44;
constexpr double bar_share = 0.64; ///< of the width there is for a bar
constexpr double max_upright_length = 160;
constexpr std::size_t max_lines_of_paper = 2;

std::string without_year(Day day) {
    const std::string text = date_text(day);
    return text.substr(0, text.rfind(' '));
}

int unearned(const InkBar& bar) {
    return (bar.max - bar.in_time - bar.overtime - bar.corrected).count();
}

/// A piece of a bar, from the bottom up.
struct Piece {
    int marks;
    SvgFill fill;
};

std::vector<Piece> pieces_of(const InkBar& bar) {
    return {{bar.in_time.count(), SvgFill::solid},
            {bar.overtime.count(), SvgFill::hatch},
            {bar.corrected.count(), SvgFill::dots},
            {unearned(bar), SvgFill::none}};
}

std::string_view letters_on(SvgFill fill) {
    return fill == SvgFill::solid ? "on-solid" : fill == SvgFill::none ? "" : "on-pattern";
}

void draw_piece(Svg& svg, const SvgBox& box, const Piece& piece) {
    svg.area(box, piece.fill);
    const std::string number = std::to_string(piece.marks);
    if (box.height >= line_height && box.width >= text_width(number) + 2)
        svg.text({box.middle(), base_line(box.top + box.height / 2)}, number, SvgAnchor::middle,
                 letters_on(piece.fill));
}

void draw_bar(Svg& svg, const InkBar& bar, double middle, double width, const Scale& scale) {
    int below = 0;
    for (const Piece& piece : pieces_of(bar)) {
        if (piece.marks == 0)
            continue;
        const double bottom = scale.at(static_cast<double>(below) / bar.max.count());
        below += piece.marks;
        const double top = scale.at(static_cast<double>(below) / bar.max.count());
        draw_piece(svg, {middle - width / 2, top, width, bottom - top}, piece);
    }
}

/// The text below a bar, if there is room for it.
std::vector<std::string> lines_below(const InkBar& bar, double room) {
    std::vector<std::string> lines = lines_of_width(bar.paper, room, max_lines_of_paper);
    lines.push_back(without_year(bar.day));
    return lines;
}

/// Whether nothing needs to be cut.
bool fits_below(const InkBar& bar, double room) {
    std::string whole;
    for (const std::string& line : lines_of_width(bar.paper, room, max_lines_of_paper))
        whole += (whole.empty() ? "" : " ") + line;
    return whole == visible(bar.paper) && text_width(without_year(bar.day)) <= room;
}

std::string name_upwards(const InkBar& bar) {
    const std::string day = ", " + without_year(bar.day);
    return cut_to_width(bar.paper, max_upright_length - text_width(day)) + day;
}

/// The bars that are drawn, and where.
struct InkRow {
    std::vector<InkBar> bars;
    SvgBox box;

    double pitch() const { return box.width / static_cast<double>(std::max<std::size_t>(1, bars.size())); }
    double middle_of(std::size_t i) const { return box.left + (static_cast<double>(i) + 0.5) * pitch(); }
    double bar_width() const { return std::min(max_bar_width, bar_share * pitch()); }
};

/// The y below the names.
double draw_names(Svg& svg, const InkRow& row) {
    const double room = row.pitch() - 6;
    const bool below = std::all_of(row.bars.begin(), row.bars.end(),
                                   [&](const InkBar& bar) { return fits_below(bar, room); });
    std::size_t max_label_lines = 0;
    double longest = 0;
    for (std::size_t i = 0; i < row.bars.size(); ++i) {
        if (!below) {
            const std::string name = name_upwards(row.bars[i]);
            longest = std::max(longest, text_width(name));
            svg.text_upwards({base_line(row.middle_of(i)), row.box.bottom() + 5}, name, SvgAnchor::end);
            continue;
        }
        const std::vector<std::string> lines = lines_below(row.bars[i], room);
        max_label_lines = std::max(max_label_lines, lines.size());
        for (std::size_t line = 0; line < lines.size(); ++line)
            svg.text({row.middle_of(i), row.box.bottom() + line_height * static_cast<double>(line + 1)},
                     lines[line], SvgAnchor::middle);
    }
    return row.box.bottom() + 7 + (below ? line_height * static_cast<double>(max_label_lines) : longest);
}

std::string draw(const std::string& id, const std::vector<InkBar>& bars, const std::vector<GradeBand>& bands,
                 const Chart& chart) {
    Svg svg(id, Chart::width);
    std::vector<LegendItem> legend{{Key::solid, "in time"},
                                   {Key::hatch, "overtime"},
                                   {Key::dots, "corrected"},
                                   {Key::outline, "unearned"}};
    const bool any_drawn = std::any_of(bars.begin(), bars.end(), [](const InkBar& bar) { return bar.drawn; });
    if (!bands.empty())
        legend.push_back({Key::band, any_drawn ? "boundaries, none for drawn papers" : "boundaries"});
    const double top = draw_legend(svg, 0, legend) + line_height;
    svg.text({0, top}, "share of the marks", SvgAnchor::start);

    const double right = bands.empty() ? 2 : grades_width(bands) + 10;
    const double left = text_width("100%") + 6;
    const InkRow row{bars, {left, top + 10, svg.width() - left - right, inks_plot_height}};
    const Scale scale{0, 1, row.box.bottom(), row.box.top};
    draw_left_axis(svg, row.box, scale, percent_ticks(5));
    draw_bands(svg, row.box, scale, bands, Side::right);
    for (std::size_t i = 0; i < bars.size(); ++i)
        draw_bar(svg, bars[i], row.middle_of(i), row.bar_width(), scale);
    return svg.str(draw_names(svg, row), chart.title, chart.alternative);
}

std::string alternative(const std::vector<InkBar>& bars, std::size_t drawn,
                        const std::vector<GradeBand>& bands) {
    if (bars.empty())
        return "No sittings." + bands_text(bands);
    std::string text = count_text(drawn, "sitting") + (drawn == 1 ? "" : ", the latest on the right");
    if (drawn < bars.size())
        text += ", of " + std::to_string(bars.size()) + " in the table";
    const InkBar& last = bars.back();
    text += ". " + last.paper + " on " + date_text(last.day) + ", out of " +
            std::to_string(last.max.count()) + " marks: " + std::to_string(last.in_time.count()) +
            " in time, " + std::to_string(last.overtime.count()) + " in overtime, " +
            std::to_string(last.corrected.count()) + " corrected, " + std::to_string(unearned(last)) +
            " unearned.";
    return text + bands_text(bands);
}

HtmlTable table_of(const std::vector<InkBar>& bars) {
    HtmlTable table{"Marks of each sitting, by ink",
                    {{"sitting"},
                     {"of", true},
                     {"in time", true},
                     {"overtime", true},
                     {"corrected", true},
                     {"unearned", true}},
                    {}};
    for (const InkBar& bar : bars)
        table.rows.push_back({bar.paper + ", " + date_text(bar.day), std::to_string(bar.max.count()),
                              std::to_string(bar.in_time.count()), std::to_string(bar.overtime.count()),
                              std::to_string(bar.corrected.count()), std::to_string(unearned(bar))});
    return table;
}

} // namespace

Chart ink_chart(const std::string& id, const std::vector<InkBar>& bars, const std::vector<GradeBand>& bands) {
    const std::size_t drawn = std::min(bars.size(), max_ink_bars);
    const std::vector<InkBar> last(bars.end() - static_cast<std::ptrdiff_t>(drawn), bars.end());
    Chart chart{"The three inks of each sitting", alternative(bars, drawn, bands), {}, table_of(bars)};
    chart.svg = draw(id, last, bands, chart);
    return chart;
}

} // namespace inkturn
