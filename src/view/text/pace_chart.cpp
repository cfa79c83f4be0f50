#include "view/text/pace_chart.hpp"

#include "view/text/text.hpp"

#include "view/figure/axis.hpp"

#include <algorithm>
#include <cassert>
#include <cstdint>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::size_t min_chart_columns = 40;
constexpr std::int64_t intervals = 12; ///< rows above the axis, at most
constexpr std::int64_t max_mark_ticks = 6;
constexpr std::int64_t columns_a_tick = 9; ///< at least, between the ticks of the time
constexpr std::string_view minutes_unit = " min";
constexpr Seconds minute{60};

/// numerator / denominator to the nearest whole number, halves up. Neither is negative.
std::int64_t nearest(std::int64_t numerator, std::int64_t denominator) {
    return (2 * numerator + denominator) / (2 * denominator);
}

std::int64_t rounded_up(std::int64_t number, std::int64_t step) {
    return (number + step - 1) / step;
}

std::int64_t step_of_marks(Marks marks) {
    return round_step(std::max(1, marks.count()), max_mark_ticks);
}

/// The highest tick: at the marks or above them.
std::int64_t top_mark(Marks marks) {
    const std::int64_t step = step_of_marks(marks);
    return step * rounded_up(std::max(1, marks.count()), step);
}

/// Where marks and times lie on the sheet. Row 0 is the axis, column 0 the start.
class Grid {
  public:
    Grid(Marks marks, Seconds longest, std::int64_t last_column)
        : mark_step_(step_of_marks(marks)),
          mark_ticks_(top_mark(marks) / mark_step_),
          max_time_(longest.count()),
          last_column_(last_column),
          minute_step_(minutes_step(max_time_ / 60, last_column / columns_a_tick)) {}

    std::int64_t top_row() const { return rows_a_tick() * mark_ticks_; }
    std::int64_t last_column() const { return last_column_; }
    std::int64_t rows_a_tick() const { return intervals / mark_ticks_; }
    std::int64_t mark_step() const { return mark_step_; }
    std::int64_t minute_step() const { return minute_step_; }
    std::int64_t last_minute() const { return max_time_ / 60; }

    std::int64_t row_of(Marks marks) const { return nearest(marks.count() * rows_a_tick(), mark_step_); }
    std::int64_t column_of(Seconds time) const { return nearest(time.count() * last_column_, max_time_); }
    /// The row of the allowance line over a column.
    std::int64_t row_paid(std::int64_t column, Marks marks, Seconds allowance) const {
        return nearest(column * max_time_ * marks.count() * rows_a_tick(),
                       last_column_ * allowance.count() * mark_step_);
    }

  private:
    std::int64_t mark_step_;
    std::int64_t mark_ticks_;
    std::int64_t max_time_; ///< seconds, at the last column
    std::int64_t last_column_;
    std::int64_t minute_step_;
};

/// Rows of characters, counted from the bottom: what is drawn later covers what was drawn before.
class Canvas {
  public:
    Canvas(std::int64_t rows, std::int64_t columns)
        : rows_(static_cast<std::size_t>(rows), std::string(static_cast<std::size_t>(columns), ' ')) {}

    char& at(std::int64_t row, std::int64_t column) {
        return rows_[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
    }
    const std::string& row(std::int64_t row) const { return rows_[static_cast<std::size_t>(row)]; }

  private:
    std::vector<std::string> rows_;
};

/// The axis of marks is column 0, that of time row 0.
void draw_axes(Canvas& canvas, const Grid& grid) {
    for (std::int64_t column = 0; column <= grid.last_column(); ++column)
        canvas.at(0, column) = '-';
    for (std::int64_t tick = 0; tick <= grid.last_minute(); tick += grid.minute_step())
        canvas.at(0, grid.column_of(tick * minute)) = '+';
    for (std::int64_t row = 0; row <= grid.top_row(); ++row)
        canvas.at(row, 0) = row % grid.rows_a_tick() == 0 ? '+' : '|';
}

void draw_allowance(Canvas& canvas, const Grid& grid, Seconds allowance, Marks marks) {
    for (std::int64_t column = 0; column < grid.column_of(allowance); ++column) {
        const std::int64_t row = grid.row_paid(column, marks, allowance);
        if (row > 0)
            canvas.at(row, column) = '.';
    }
    canvas.at(grid.row_of(marks), grid.column_of(allowance)) = '.';
}

void draw_change_of_ink(Canvas& canvas, const Grid& grid, Seconds allowance) {
    for (std::int64_t row = 0; row <= grid.top_row(); ++row)
        canvas.at(row, grid.column_of(allowance)) = '|';
}

/// A point that rises above the one before it is a part that was left.
void draw_parts_left(Canvas& canvas, const Grid& grid, const std::vector<ClockPoint>& points) {
    Marks before;
    for (const ClockPoint& point : points) {
        if (point.marks > before)
            canvas.at(grid.row_of(point.marks), grid.column_of(point.worked)) = 'o';
        before = point.marks;
    }
}

void trim_end(std::string& line) {
    line.erase(line.find_last_not_of(' ') + 1);
}

std::string rows_text(const Canvas& canvas, const Grid& grid, std::size_t margin) {
    std::string text;
    for (std::int64_t row = grid.top_row(); row >= 0; --row) {
        const bool tick = row % grid.rows_a_tick() == 0;
        const std::string label =
            tick ? std::to_string(row / grid.rows_a_tick() * grid.mark_step()) : std::string();
        std::string line = right_aligned(label, margin) + ' ' + canvas.row(row);
        trim_end(line);
        text += line + '\n';
    }
    return text;
}

/// The minutes centred below their ticks; the unit after the last.
std::string minutes_text(const Grid& grid, std::size_t indent) {
    std::string line(indent, ' ');
    for (std::int64_t tick = 0; tick <= grid.last_minute(); tick += grid.minute_step()) {
        const std::string label = std::to_string(tick);
        const std::size_t middle = indent + static_cast<std::size_t>(grid.column_of(tick * minute));
        line.resize(middle - (label.size() - 1) / 2, ' ');
        line += label;
    }
    return line + std::string(minutes_unit) + '\n';
}

std::string legend(bool ink_changed, Seconds allowance, std::size_t width) {
    const std::string at = length_text(allowance);
    const std::string full =
        "o part done   . marks expected" + (ink_changed ? "   | ink changed at " + at : std::string());
    if (full.size() <= width)
        return full + '\n';
    return "o done   . expected" + (ink_changed ? "   | ink, " + at : std::string()) + '\n';
}

std::string signed_length(Seconds length) {
    if (length == Seconds(0))
        return length_text(length);
    return length < Seconds(0) ? "-" + length_text(-length) : "+" + length_text(length);
}

std::vector<std::string> times_row(const std::string& label, Marks marks, Seconds allowance,
                                   const PartTime& time) {
    const Seconds all = time.in_time + time.overtime;
    std::vector<std::string> cells{label, std::to_string(marks.count()), length_text(allowance)};
    if (all == Seconds(0))
        cells.insert(cells.end(), {"-", "", ""});
    else
        cells.insert(cells.end(), {length_text(time.in_time),
                                   time.overtime == Seconds(0) ? "" : length_text(time.overtime),
                                   signed_length(all - allowance)});
    return cells;
}

} // namespace

std::string pace_chart_text(const std::vector<ClockPoint>& points, Seconds allowance, Marks marks,
                            std::size_t width) {
    assert(width >= min_chart_columns && width <= Table::full_width);
    const Seconds worked = points.empty() ? Seconds(0) : points.back().worked;
    const bool ink_changed = !points.empty() && worked >= allowance;
    const Seconds longest = std::max({worked, allowance, minute});
    const std::size_t margin = std::to_string(top_mark(marks)).size();
    const std::size_t indent = margin + 1;
    const std::size_t half_a_label = std::to_string(longest / minute).size() / 2;
    const auto plot = static_cast<std::int64_t>(width - indent - half_a_label - minutes_unit.size());
    const Grid grid(marks, longest, plot - 1);

    Canvas canvas(grid.top_row() + 1, plot);
    draw_axes(canvas, grid);
    draw_allowance(canvas, grid, allowance, marks);
    if (ink_changed)
        draw_change_of_ink(canvas, grid, allowance);
    draw_parts_left(canvas, grid, points);
    return "marks\n" + rows_text(canvas, grid, margin) + minutes_text(grid, indent) +
           legend(ink_changed, allowance, width);
}

Table part_times_table(const Clock& clock, const std::vector<PartTime>& times) {
    const std::vector<ClockPart>& parts = clock.parts();
    assert(parts.size() == times.size());
    Table table({{"part"},
                 {"marks", Align::right},
                 {"allowance", Align::right},
                 {"in time", Align::right},
                 {"overtime", Align::right},
                 {"difference", Align::right}});
    PartTime sum;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const bool was_worked = times[i].in_time + times[i].overtime > Seconds(0);
        if (parts[i].marks == Marks(0) && !was_worked)
            continue;
        table.add_row(times_row(parts[i].label, parts[i].marks, parts[i].allowance, times[i]));
        sum.in_time += times[i].in_time;
        sum.overtime += times[i].overtime;
    }
    table.add_row(times_row("all", clock.marks(), clock.allowance(), sum));
    return table;
}

} // namespace inkturn
