#include "view/text/trend.hpp"

#include "view/text/text.hpp"

#include "view/text/sittings.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::size_t narrowest_chart = 40;
constexpr int rows = 10; ///< of a bar that is full
constexpr int rows_a_tick = 2;
constexpr std::size_t margin = 4; ///< of `100%`
constexpr std::size_t min_bar = 2;

std::string number(SittingId id) {
    return std::to_string(static_cast<std::int64_t>(id));
}

std::string trimmed(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line + '\n';
}

/// How many rows of a bar the marks fill, to the nearest, halves up.
int height(Marks marks, Marks max) {
    return (2 * rows * marks.count() + max.count()) / (2 * max.count());
}

/// The highest row of each ink in a bar. One with marks has a row at least, taken from the ink below it where
/// that has more.
std::array<int, 3> tops_of(const Totals& sum) {
    const std::array<Marks, 3> inks{sum.in_time, sum.overtime, sum.corrected};
    std::array<int, 3> tops{height(sum.in_time, sum.max), height(sum.unaided(), sum.max),
                            height(sum.unaided() + sum.corrected, sum.max)};
    const auto least = [&](std::size_t ink) { return inks[ink] > Marks(0) ? 1 : 0; };
    tops[2] = std::max(tops[2], least(0) + least(1) + least(2));
    for (std::size_t ink = 2; ink > 0; --ink)
        tops[ink - 1] = std::min(tops[ink - 1], tops[ink] - least(ink));
    for (std::size_t ink = 0; ink < tops.size(); ++ink)
        tops[ink] = std::max(tops[ink], (ink == 0 ? 0 : tops[ink - 1]) + least(ink));
    return tops;
}

/// The character of a sitting's bar in this row, the lowest being 1.
char ink_at(const TrendSitting& sitting, int row) {
    constexpr std::array<char, 3> letters{'i', 'o', 'c'};
    const std::array<int, 3> tops = tops_of(sitting.totals);
    for (std::size_t ink = 0; ink < tops.size(); ++ink)
        if (row <= tops[ink])
            return letters[ink];
    return ' ';
}

/// The bars of the figure and how wide they are.
struct Bars {
    std::vector<TrendSitting> sittings;
    std::size_t width;

    bool any_again() const {
        return std::any_of(sittings.begin(), sittings.end(),
                           [](const TrendSitting& sitting) { return sitting.time_sat > 1; });
    }
};

Bars last_that_fit(const std::vector<TrendSitting>& sittings, std::size_t width) {
    Bars bars{{}, min_bar};
    for (const TrendSitting& sitting : sittings)
        bars.width = std::max(bars.width, number(sitting.id).size());
    const std::size_t room =
        (width - margin - 2) / (bars.width + 1); // a blank and the axis beside the margin
    const std::size_t shown = std::min(room, sittings.size());
    bars.sittings.assign(sittings.end() - static_cast<std::ptrdiff_t>(shown), sittings.end());
    return bars;
}

std::string row_text(const Bars& bars, int row) {
    const bool tick = row % rows_a_tick == 0;
    std::string line = right_aligned(tick ? std::to_string(row * 100 / rows) + "%" : "", margin);
    line += tick ? " +" : " |";
    for (const TrendSitting& sitting : bars.sittings)
        line += (row == 0 ? '-' : ' ') + std::string(bars.width, row == 0 ? '-' : ink_at(sitting, row));
    return trimmed(line);
}

template <typename Label>
std::string below(const Bars& bars, const Label& label) {
    std::string line(margin + 2, ' ');
    for (const TrendSitting& sitting : bars.sittings)
        line += ' ' + right_aligned(label(sitting), bars.width);
    return trimmed(line);
}

std::string legend(const Bars& bars, std::size_t width) {
    const std::string inks = "i in time   o overtime   c corrected";
    const std::string labels = "   below: the sitting's number";
    return inks + (inks.size() + labels.size() <= width ? labels : "") + '\n' +
           (bars.any_again() ? "* a paper sat again\n" : "");
}

std::string length_or_blank(Seconds length) {
    return length == Seconds(0) ? std::string() : length_text(length);
}

std::string seconds_text(double seconds) {
    return length_text(Seconds(std::lround(seconds)));
}

} // namespace

std::string trend_figure(const std::vector<TrendSitting>& sittings, std::size_t width) {
    assert(width >= narrowest_chart && width <= Table::full_width);
    if (sittings.empty())
        return "";
    const Bars bars = last_that_fit(sittings, width);
    std::string text = "marks";
    if (bars.sittings.size() < sittings.size())
        text += ", the last " + std::to_string(bars.sittings.size()) + " of " +
                std::to_string(sittings.size()) + " sittings";
    text += '\n';
    for (int row = rows; row >= 0; --row)
        text += row_text(bars, row);
    text += below(bars, [](const TrendSitting& sitting) { return number(sitting.id); });
    if (bars.any_again())
        text += below(
            bars, [](const TrendSitting& sitting) { return std::string(sitting.time_sat > 1 ? "*" : ""); });
    return text + legend(bars, width);
}

Table trend_table(const std::vector<TrendSitting>& sittings) {
    const bool any_again = std::any_of(sittings.begin(), sittings.end(),
                                       [](const TrendSitting& sitting) { return sitting.time_sat > 1; });
    std::vector<Table::Column> columns{{"sitting", Align::right},
                                       {"paper", Align::left_may_be_cut},
                                       {"date"},
                                       {"of", Align::right},
                                       {"in time", Align::right},
                                       {"unaided", Align::right},
                                       {"corrected", Align::right},
                                       {"reach", Align::right}};
    if (any_again)
        columns.push_back({"sat"});
    Table table(std::move(columns));
    for (const TrendSitting& sitting : sittings) {
        const Totals& sum = sitting.totals;
        std::vector<std::string> row{number(sitting.id),
                                     sitting.paper->id(),
                                     date_text(sitting.day),
                                     std::to_string(sum.max.count()),
                                     percent(sum.in_time, sum.max),
                                     percent(sum.unaided(), sum.max),
                                     percent(sum.corrected, sum.max),
                                     percent(sitting.reach, sum.max)};
        if (any_again)
            row.push_back(sitting.time_sat > 1 ? "again" : "");
        table.add_row(std::move(row));
    }
    return table;
}

std::optional<Table> trend_pace_table(const std::vector<TrendSitting>& sittings) {
    Table table({{"sitting", Align::right},
                 {"paper", Align::left_may_be_cut},
                 {"in time", Align::right},
                 {"overtime", Align::right},
                 {"time off", Align::right, true},
                 {"per mark", Align::right},
                 {"allowed", Align::right}});
    bool any = false;
    for (const TrendSitting& sitting : sittings) {
        if (!sitting.worked)
            continue;
        any = true;
        const auto per_mark = sitting.seconds_per_mark();
        table.add_row({number(sitting.id), sitting.paper->id(), length_text(sitting.worked->in_time),
                       length_or_blank(sitting.worked->overtime), length_or_blank(sitting.worked->off),
                       per_mark ? seconds_text(*per_mark) : "-", seconds_text(sitting.allowed_per_mark())});
    }
    return any ? std::optional<Table>(std::move(table)) : std::nullopt;
}

Table turns_table(const std::vector<TurnCount>& turns) {
    Table table({{"turn", Align::right}, {"done", Align::right}, {"got", Align::right}, {"", Align::right}});
    for (const TurnCount& count : turns)
        table.add_row({std::to_string(count.turn), std::to_string(count.done), std::to_string(count.got),
                       percent(Marks(static_cast<int>(count.got)), Marks(static_cast<int>(count.done)))});
    return table;
}

std::string secured_again_line(const SecuredAgain& again) {
    const auto interval = again.interval();
    if (!interval)
        return "";
    const auto in_percent = [](double share) { return std::to_string(std::lround(share)); };
    const Marks got(static_cast<int>(again.got));
    const Marks met(static_cast<int>(again.met));
    return text_line("Secured questions that were met again, asked for once more or in a paper sat again: " +
                     std::to_string(again.met) + ". Got again: " + std::to_string(again.got) + ", " +
                     percent(got, met) + " (interval " + in_percent(std::floor(100 * interval->low)) + "-" +
                     in_percent(std::ceil(100 * interval->high)) + "%).");
}

} // namespace inkturn
