#include "view/text/table.hpp"

#include "view/text/text.hpp"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <ostream>

namespace inkturn {
namespace {

constexpr std::size_t gap = 2;
constexpr std::size_t min_cut = 8;
constexpr std::size_t min_cut_when_narrow = 16; ///< below it a row says more as a paragraph

bool may_give_way(const Table::Column& column) {
    return column.align == Table::Align::left_may_be_cut || column.align == Table::Align::left_wrapped;
}

std::size_t width_of_row(const std::vector<std::size_t>& widths) {
    return std::accumulate(widths.begin(), widths.end(), gap * (widths.size() - 1));
}

/// Narrows the widest of the columns that may be cut or wrapped until the row fits or nothing more can go.
void cut_to_fit(const std::vector<Table::Column>& columns, std::vector<std::size_t>& widths) {
    const std::size_t least = Table::width() < Table::full_width ? min_cut_when_narrow : min_cut;
    std::size_t needed = width_of_row(widths);
    while (needed > Table::width()) {
        std::size_t* widest = nullptr;
        for (std::size_t i = 0; i < columns.size(); ++i)
            if (may_give_way(columns[i]) && widths[i] > least && (!widest || widths[i] > *widest))
                widest = &widths[i];
        if (!widest)
            return;
        --*widest;
        --needed;
    }
}

void write_line(std::ostream& out, const std::vector<Table::Column>& columns,
                const std::vector<std::size_t>& widths, const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i > 0)
            line.append(gap, ' ');
        const std::size_t needed = inkturn::columns(cells[i]);
        if (needed > widths[i])
            line += columns[i].align == Table::Align::left_wrapped ? cells[i] : fitted(cells[i], widths[i]);
        else if (columns[i].align == Table::Align::right)
            line.append(widths[i] - needed, ' ').append(cells[i]);
        else
            line.append(cells[i]).append(widths[i] - needed, ' ');
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out << line << '\n';
}

/// Items that end in `;` are broken at blanks only if they don't fit a line.
std::string wrapped_items(const std::string& text, std::size_t width) {
    std::string above;
    std::string line;
    for (std::size_t start = 0; start < text.size();) {
        const std::size_t end = std::min(text.find("; ", start), text.size() - 1) + 1;
        const std::string item = text.substr(start, end - start);
        start = end + 1;
        std::string joined = line;
        if (!joined.empty())
            joined += ' ';
        joined += item;
        if (inkturn::columns(joined) <= width) {
            line = joined;
            continue;
        }
        above += line + (line.empty() ? "" : "\n");
        const std::string broken = wrapped(item, width);
        const std::size_t last = broken.rfind('\n') + 1;
        above += broken.substr(0, last);
        line = broken.substr(last);
    }
    return above + line;
}

/// Blanks that line cells up, in a row that is a paragraph.
std::string without_runs_of_blanks(const std::string& text) {
    std::string single;
    for (const char c : text)
        if (c != ' ' || (!single.empty() && single.back() != ' '))
            single += c;
    return single;
}

/// Takes the first line off a text.
std::string first_line_taken(std::string& text) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string line = text.substr(0, end);
    text.erase(0, end + 1);
    return line;
}

/// As many lines as the longest of its wrapped cells takes.
void write_row(std::ostream& out, const std::vector<Table::Column>& columns,
               const std::vector<std::size_t>& widths, std::vector<std::string> cells) {
    for (std::size_t i = 0; i < cells.size(); ++i)
        if (columns[i].align == Table::Align::left_wrapped)
            cells[i] = wrapped_items(cells[i], widths[i]);
    do {
        std::vector<std::string> line;
        for (std::string& cell : cells)
            line.push_back(first_line_taken(cell));
        write_line(out, columns, widths, line);
    } while (std::any_of(cells.begin(), cells.end(), [](const std::string& cell) { return !cell.empty(); }));
}

} // namespace

Table::Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

void Table::add_row(std::vector<std::string> cells) {
    assert(cells.size() == columns_.size());
    for (std::string& cell : cells)
        cell = visible(cell);
    rows_.push_back(std::move(cells));
}

Table Table::without_empty_columns() const {
    std::vector<std::size_t> shown;
    for (std::size_t i = 0; i < columns_.size(); ++i)
        if (!columns_[i].if_any ||
            std::any_of(rows_.begin(), rows_.end(), [i](const auto& row) { return !row[i].empty(); }))
            shown.push_back(i);
    const auto those_shown = [&shown](const auto& all) {
        std::decay_t<decltype(all)> some;
        for (const std::size_t i : shown)
            some.push_back(all[i]);
        return some;
    };
    Table table(those_shown(columns_));
    for (const auto& row : rows_)
        table.rows_.push_back(those_shown(row));
    return table;
}

/// The first cell, and below it the others with their titles.
void Table::write_as_paragraphs(std::ostream& out) const {
    for (const auto& row : rows_) {
        out << row.front() << '\n';
        std::vector<std::string> items;
        for (std::size_t i = 1; i < row.size(); ++i)
            if (!row[i].empty())
                items.push_back((columns_[i].title.empty() ? "" : columns_[i].title + ": ") +
                                without_runs_of_blanks(row[i]));
        if (!items.empty())
            out << "  " << wrapped_list(items, width_ - 2, 2) << '\n';
    }
}

std::ostream& operator<<(std::ostream& out, const Table& whole) {
    const Table table = whole.without_empty_columns();
    std::vector<std::string> titles;
    std::vector<std::size_t> widths;
    for (const Table::Column& column : table.columns_) {
        titles.push_back(column.title);
        widths.push_back(columns(column.title));
    }
    for (const auto& row : table.rows_)
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], columns(row[i]));
    cut_to_fit(table.columns_, widths);
    if (Table::width() < Table::full_width && width_of_row(widths) > Table::width()) {
        table.write_as_paragraphs(out);
        return out;
    }

    write_row(out, table.columns_, widths, titles);
    for (const auto& row : table.rows_)
        write_row(out, table.columns_, widths, row);
    return out;
}

} // namespace inkturn
