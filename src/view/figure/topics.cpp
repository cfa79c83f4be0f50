#include "view/figure/figures.hpp"

#include "view/figure/lettering.hpp"
#include "view/figure/plot.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr double names_width = 116;
constexpr double counts_width = 42;
constexpr double topics_row_height = 18;
constexpr double row_height_of_two_lines = 31;
constexpr double cap = 4; ///< half of the stroke that ends an interval

/// A topic's row, `height` high from `top`.
struct TopicRow {
    std::vector<std::string> name;
    double top;
    double height;

    double middle() const { return top + height / 2; }
};

std::vector<TopicRow> rows_below(double top, const std::vector<TopicShare>& topics) {
    std::vector<TopicRow> rows;
    for (const TopicShare& topic : topics) {
        std::vector<std::string> name = lines_of_width(topic.topic, names_width, 2);
        const double height = name.size() > 1 ? row_height_of_two_lines : topics_row_height;
        rows.push_back({std::move(name), top, height});
        top += height;
    }
    return rows;
}

void draw_row(Svg& svg, const TopicRow& row, const TopicShare& topic, const Scale& scale) {
    const double first = row.middle() - line_height * (static_cast<double>(row.name.size()) - 1) / 2;
    for (std::size_t line = 0; line < row.name.size(); ++line)
        svg.text({0, base_line(first + line_height * static_cast<double>(line))}, row.name[line],
                 SvgAnchor::start);
    const double y = row.middle();
    svg.line({scale.at(topic.low), y}, {scale.at(topic.high), y}, "interval");
    for (const double end : {topic.low, topic.high})
        svg.line({scale.at(end), y - cap}, {scale.at(end), y + cap}, "interval");
    svg.dot({scale.at(topic.share), y}, 5, "share");
    svg.text({svg.width() - beside_text, base_line(y)}, std::to_string(topic.parts), SvgAnchor::end);
}

std::string draw(const std::string& id, const std::vector<TopicShare>& topics, const Chart& chart) {
    Svg svg(id, Chart::width);
    const double top =
        draw_legend(svg, 0, {{Key::share, "expected in time"}, {Key::interval, "80% range"}}) + line_height;
    svg.text({0, top}, "topic", SvgAnchor::start);
    svg.text({svg.width() - beside_text, top}, "parts", SvgAnchor::end);

    const std::vector<TopicRow> rows = rows_below(top + 8, topics);
    const double bottom = rows.empty() ? top + 8 + topics_row_height : rows.back().top + rows.back().height;
    const double left = names_width + 8;
    const SvgBox box{left, top + 8, svg.width() - left - counts_width, bottom - top - 8};
    const Scale scale{0, 1, box.left, box.right()};
    const double end = draw_bottom_axis(
        svg, box, scale, percent_ticks(max_intervals(box.width, text_width("100%"))), "share of the marks");
    for (std::size_t i = 0; i < rows.size(); ++i)
        draw_row(svg, rows[i], topics[i], scale);
    return svg.str(end, chart.title, chart.alternative);
}

std::string in_words(const TopicShare& topic) {
    return topic.topic + ", " + percent(topic.share) + " (80% range " + percent_range(topic.low, topic.high) +
           ")";
}

std::string alternative(const std::vector<TopicShare>& topics, std::size_t drawn) {
    if (topics.empty())
        return "No topics.";
    std::string text = count_text(drawn, "topic");
    if (drawn < topics.size())
        text += ", of " + std::to_string(topics.size()) + " in the table";
    text += ". First " + in_words(topics.front());
    return text + (drawn == 1 ? "." : "; last " + in_words(topics[drawn - 1]) + ".");
}

/// For a cell that must not wrap on a phone.
std::string narrow_range(const TopicShare& topic) {
    const std::string low = percent(topic.low);
    const std::string high = percent(topic.high);
    return low == high ? low : low.substr(0, low.size() - 1) + "\xE2\x80\x93" + high;
}

HtmlTable table_of(const std::vector<TopicShare>& topics) {
    HtmlTable table{"Expected share, by topic",
                    {{"topic"}, {"expected", true}, {"80% range", true}, {"parts", true}},
                    {}};
    for (const TopicShare& topic : topics)
        table.rows.push_back(
            {topic.topic, percent(topic.share), narrow_range(topic), std::to_string(topic.parts)});
    return table;
}

} // namespace

Chart topics_chart(const std::string& id, const std::vector<TopicShare>& topics) {
    const std::size_t drawn = std::min(topics.size(), max_topics);
    const std::vector<TopicShare> first(topics.begin(), topics.begin() + static_cast<std::ptrdiff_t>(drawn));
    Chart chart{"Share expected in time, by topic", alternative(topics, drawn), {}, table_of(topics)};
    chart.svg = draw(id, first, chart);
    return chart;
}

} // namespace inkturn
