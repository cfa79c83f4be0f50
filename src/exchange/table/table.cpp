#include "exchange/table/table.hpp"

#include "inkturn/base/likeness.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

std::string column_name(std::string_view written) {
    std::string name = without_blanks(written);
    for (char& c : name)
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char>(c - 'A' + 'a');
    return name;
}

std::string joined(const std::vector<std::string_view>& names) {
    std::string list;
    for (const std::string_view name : names)
        list.append(list.empty() ? "" : ", ").append(name);
    return list;
}

bool is_blank(std::string_view cell) {
    return cell.empty() || (blank_length(cell) > 0 && trimmed(cell).empty()); // mostly the first is none
}

std::string count_of_cells(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " field" : " fields");
}

} // namespace

std::string without_blanks(std::string_view text) {
    return composed(trimmed(text));
}

std::string name_in(std::string_view cell) {
    std::string name = without_blanks(cell);
    check_is_visible(name, "'" + name + "'");
    return name;
}

HeadedTable::HeadedTable(Rows& rows, ProblemList& problems)
    : rows_(rows), cells_(rows.cells()), problems_(problems) {
    if (!rows_.next())
        throw UnreadableFile({0, 0, "the file is empty"});
    take_header();
}

HeadedTable::HeadedTable(Rows& rows, ProblemList& problems, IsHeader is_header, const std::string& no_header,
                         NearlyHeader nearly)
    : rows_(rows), cells_(rows.cells()), problems_(problems) {
    if (!rows_.next())
        throw UnreadableFile({0, 0, "the file is empty"});
    Problem none{rows_.line(), 0, no_header};
    while (!is_header(cells_)) {
        if (nearly.is_one != nullptr && nearly.is_one(cells_))
            none = {rows_.line(), 0, nearly.lacks};
        row_above_.assign(cells_.begin(), cells_.end());
        if (++rows_above_ > max_rows_above || !rows_.next())
            throw UnreadableFile(none);
    }
    take_header();
}

void HeadedTable::take_header() {
    header_line_ = rows_.line();
    header_cell_ = rows_.cell_name(0);
    for (const std::string_view field : cells_) {
        names_.push_back(column_name(field));
        if (!names_.back().empty())
            named_width_ = names_.size();
    }
}

std::optional<std::size_t> HeadedTable::find(std::string_view name) const {
    const auto found = std::find(names_.begin(), names_.end(), name);
    if (found == names_.end())
        return std::nullopt;
    return static_cast<std::size_t>(found - names_.begin());
}

std::vector<std::optional<std::size_t>> HeadedTable::match(const std::vector<std::string_view>& wanted,
                                                           std::size_t required) {
    return match(wanted, required, [&](std::size_t column) {
        report(column, "the column '" + std::string(written_name(column)) + "' is not one of " +
                           joined(wanted) + ": rename it or leave it out");
    });
}

std::vector<std::optional<std::size_t>>
HeadedTable::match(const std::vector<std::string_view>& wanted, std::size_t required,
                   const std::function<void(std::size_t column)>& not_wanted) {
    std::vector<std::optional<std::size_t>> columns(wanted.size());
    for (std::size_t i = 0; i < names_.size(); ++i) {
        const auto name = std::find(wanted.begin(), wanted.end(), names_[i]);
        const auto position = static_cast<std::size_t>(name - wanted.begin());
        if (names_[i].empty())
            blank_columns_.push_back(i);
        else if (name == wanted.end())
            not_wanted(i);
        else if (columns[position])
            report(i, "the column " + names_[i] + " appears twice: leave one out");
        else
            columns[position] = i;
    }
    for (std::size_t i = 0; i < required; ++i)
        if (!columns[i])
            report_header("the header has no column " + std::string(wanted[i]) + ": add it");
    return columns;
}

bool HeadedTable::next() {
    while (rows_.next()) {
        if (is_blank(cells_.front()) && std::all_of(cells_.begin(), cells_.end(), is_blank))
            continue;
        if (cells_.size() == names_.size() || has_width_of_header()) {
            if (!blank_columns_.empty())
                check_blank_columns();
            return true;
        }
        if (take_note())
            continue;
        ++ragged_rows_;
        report_row("the row has " + count_of_cells(cells_.size()) + " and the header has " +
                   std::to_string(names_.size()) + ": give each column one field");
    }
    return false;
}

/// Whether only blank cells are missing or too many.
bool HeadedTable::has_width_of_header() const {
    if (cells_.size() < names_.size())
        return cells_.size() >= named_width_;
    return std::all_of(cells_.begin() + static_cast<std::ptrdiff_t>(names_.size()), cells_.end(), is_blank);
}

/// Whether the row is a note, which is kept apart then.
bool HeadedTable::take_note() {
    if (is_note_ == nullptr || cells_.size() > names_.size() || !is_note_(cells_))
        return false;
    const auto first = std::find_if_not(cells_.begin(), cells_.end(), is_blank);
    notes_.push_back(
        problem_in(static_cast<std::size_t>(first - cells_.begin()), std::string(trimmed(*first))));
    return true;
}

void HeadedTable::expect_blank(std::vector<std::size_t> columns) {
    blank_columns_ = std::move(columns);
    check_blank_columns();
}

void HeadedTable::check_blank_columns() {
    for (auto column = blank_columns_.begin(); column != blank_columns_.end();) {
        const std::string_view text = cell_if_there(*column);
        if (is_blank(text)) {
            ++column;
            continue;
        }
        report(*column, "the column of '" + std::string(trimmed(text)) +
                            "' has no heading: give it one, or leave it out");
        column = blank_columns_.erase(column);
    }
}

std::string HeadedTable::row_text(std::size_t line) const {
    return std::string(rows_.row_word()) + ' ' + std::to_string(line);
}

void HeadedTable::check_has_value(std::size_t column) const {
    if (const std::string fault = rows_.fault(column); !fault.empty())
        throw Error(fault);
}

Problem HeadedTable::problem_in(std::size_t column, std::string message) const {
    if (std::string fault = rows_.fault(column); !fault.empty())
        message = std::move(fault);
    return {rows_.line(column),     rows_.column(column), std::move(message), Error::Remedy::none, {},
            rows_.cell_name(column)};
}

void HeadedTable::report(std::size_t column, std::string message) {
    if (problems_.count < ProblemList::max_items)
        problems_.add(problem_in(column, std::move(message)));
    else
        problems_.add(0, 0, {});
}

void HeadedTable::report_row(std::string message) {
    problems_.add({line(), 0, std::move(message), Error::Remedy::none, {}, rows_.cell_name(0)});
}

void HeadedTable::report_header(std::string message) {
    problems_.add({header_line_, 0, std::move(message), Error::Remedy::none, {}, header_cell_});
}

} // namespace inkturn
